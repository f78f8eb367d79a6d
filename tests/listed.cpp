// SPDX-License-Identifier: MIT
// Answers about small networks by listing every simple path; shares no code with the survey.
#include "listed.h"

#include <algorithm>

namespace ebbline {
namespace {

struct Walk {
    const Listed& listed;
    const Listed::Filter& filter;
    int to = 0;
    std::vector<bool> seen;
    std::vector<Elements> found;

    void walk(int node, Elements gone) {
        if (node == to) {
            found.push_back(gone);
            return;
        }
        seen[static_cast<std::size_t>(node)] = true;
        for (int i = 0; i < listed.count(); ++i) {
            const Element& element = listed.element(i);
            if (element.from != node && element.to != node)
                continue;
            const int next = element.from == node ? element.to : element.from;
            if (filter(i) && !seen[static_cast<std::size_t>(next)])
                walk(next, gone | only(i));
        }
        seen[static_cast<std::size_t>(node)] = false;
    }
};

void append(std::vector<Elements>& all, const std::vector<Elements>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

} // namespace

std::vector<int> asList(Elements set) {
    std::vector<int> list;
    for (int i = 0; i < 32; ++i)
        if (holds(set, i))
            list.push_back(i);
    return list;
}

bool Listed::isOf(int i, std::initializer_list<ElementKind> kinds) const {
    return std::ranges::find(kinds, element(i).kind) != kinds.end();
}

bool Listed::isSource(int i) const {
    return isOf(i, {ElementKind::Battery, ElementKind::Charger});
}

bool Listed::isConsumer(int i) const {
    return isOf(i, {ElementKind::Controller, ElementKind::Load});
}

bool Listed::isFuse(int i) const {
    return isOf(i, {ElementKind::Fuse, ElementKind::Breaker});
}

bool Listed::isDrawnWay(int i) const {
    return !isSource(i) && !isConsumer(i) && element(i).kind != ElementKind::Meter;
}

bool Listed::isOpen(int i) const {
    if (!isDrawnWay(i) || element(i).kind == ElementKind::Thermostat)
        return false;
    for (const auto& [at_s, closed] : element(i).switchings)
        if (closed)
            return false;
    const Part* part = network.installation.findPart(element(i).part);
    const auto* fuse = part == nullptr ? nullptr : std::get_if<Fuse>(&part->body);
    return !element(i).closed || (fuse != nullptr && fuse->blown);
}

std::vector<Elements> Listed::paths(const Filter& filter, int from, int to) const {
    Walk walk{*this, filter, to, std::vector<bool>(network.nodes.size(), false), {}};
    walk.walk(from, 0);
    return walk.found;
}

std::vector<Elements> Listed::rings(const Filter& filter) const {
    std::vector<Elements> found;
    for (int i = 0; i < count(); ++i) {
        if (!filter(i))
            continue;
        const Filter others = [&](int other) { return other != i && filter(other); };
        for (const Elements path : paths(others, element(i).from, element(i).to))
            found.push_back(path | only(i));
    }
    return found;
}

std::vector<Elements> Listed::ways(int from, int to) const {
    return paths([&](int i) { return isWay(i); }, from, to);
}

std::vector<Elements> Listed::waysFromPlus(int to) const {
    std::vector<Elements> all;
    for (int source = 0; source < count(); ++source)
        if (isSource(source))
            append(all, paths([&](int i) { return isDrawnWay(i); }, plus(source), to));
    return all;
}

std::vector<Elements> Listed::waysFromPlusToElement(int i) const {
    std::vector<Elements> all = waysFromPlus(element(i).from);
    append(all, waysFromPlus(element(i).to));
    return all;
}

std::vector<Elements> Listed::supplies(bool reversed) const {
    std::vector<Elements> all;
    const int fridge = network.subject();
    for (int source = 0; source < count(); ++source) {
        if (!isSource(source))
            continue;
        const auto out = ways(plus(source), reversed ? minus(fridge) : plus(fridge));
        const auto back = ways(reversed ? plus(fridge) : minus(fridge), minus(source));
        for (const Elements one : out)
            for (const Elements other : back)
                all.push_back(one | other | only(source));
    }
    return all;
}

double Listed::ohm(Elements set) const {
    double sum = 0;
    for (const int i : asList(set))
        sum += element(i).ohm;
    return sum;
}

} // namespace ebbline
