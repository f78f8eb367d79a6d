// SPDX-License-Identifier: MIT
// Kinds of parts, their terminals, their keys; lengths and names of runs.
#include "fields.h"

#include "ebbline/error.h"
#include "ebbline/installation.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ebbline {

double Run::length() const {
    if (length_m)
        return *length_m;
    double sum_m = spare_m;
    for (std::size_t i = 1; i < route_m.size(); ++i)
        sum_m +=
            std::hypot(route_m[i].x_m - route_m[i - 1].x_m, route_m[i].y_m - route_m[i - 1].y_m);
    return sum_m;
}

std::string Run::coreName(std::size_t core) const {
    return cores.size() == 1 ? id : id + "." + std::to_string(core + 1);
}

std::string Run::endName(std::size_t core, std::string_view end) const {
    return coreName(core) + "." + std::string(end);
}

const Part* Installation::findPart(std::string_view id) const {
    const auto place = std::ranges::find(parts, id, &Part::id);
    return place == parts.end() ? nullptr : &*place;
}

const Run* Installation::findRun(std::string_view id) const {
    const auto place = std::ranges::find(runs, id, &Run::id);
    return place == runs.end() ? nullptr : &*place;
}

const ChangeSet* Installation::findChangeSet(std::string_view id) const {
    for (const auto* sets : {&conditions, &variants, &setups})
        if (const auto place = std::ranges::find(*sets, id, &ChangeSet::id); place != sets->end())
            return &*place;
    return nullptr;
}

namespace installation {
namespace {

// In the order of the alternatives of Body.
const std::array<std::string, std::variant_size_v<Body>> kind_names{"battery",
                                                                    "charger",
                                                                    "isolator",
                                                                    "fuse",
                                                                    "breaker",
                                                                    "bus-bar",
                                                                    "stud",
                                                                    "splice",
                                                                    "plug",
                                                                    "panel",
                                                                    "chassis",
                                                                    "bond",
                                                                    "bench-leads",
                                                                    "thermostat",
                                                                    "controller",
                                                                    "load",
                                                                    "meter"};

template <std::size_t index = 0>
Body bodyAt(std::size_t wanted) {
    if constexpr (index + 1 < std::variant_size_v<Body>)
        if (wanted != index)
            return bodyAt<index + 1>(wanted);
    return Body(std::in_place_index<index>);
}

std::vector<std::string> numbered(std::size_t count, std::vector<std::string> names = {}) {
    for (std::size_t i = 1; i <= count; ++i)
        names.push_back(std::to_string(i));
    return names;
}

using Names = std::vector<std::string>;

template <class Other>
Names terminals(const Other&) {
    return {"line", "load"};
}
Names terminals(const Battery&) {
    return {"plus", "minus"};
}
Names terminals(const Charger&) {
    return {"plus", "minus"};
}
Names terminals(const Load&) {
    return {"plus", "minus"};
}
Names terminals(const Stud&) {
    return {"post"};
}
Names terminals(const Bond&) {
    return {"lug"};
}
Names terminals(const Chassis&) {
    return {};
}
Names terminals(const Meter&) {
    return {};
}
Names terminals(const BusBar& bar) {
    return numbered(static_cast<std::size_t>(bar.studs));
}
Names terminals(const Panel& panel) {
    return numbered(panel.ways.size(), {"feed"});
}
Names terminals(const Plug&) {
    return {"in-plus", "in-minus", "out-plus", "out-minus"};
}
Names terminals(const BenchLeads&) {
    return {"from-plus", "from-minus", "to-plus", "to-minus"};
}
Names terminals(const Controller&) {
    return {"plus", "minus", "call", "call-return", "lamp", "u", "v", "w"};
}

const Field& fieldOf(const Key& key) {
    const auto place = std::ranges::find_if(fields(), [&](const Field& field) {
        return field.key.kind == key.kind && field.key.name == key.name;
    });
    EBBLINE_ASSERT(place != fields().end(), "the key belongs to a kind of part");
    return *place;
}

} // namespace

bool isKeptOff(const Controller& unit) {
    return unit.dead || unit.shell_c > unit.shell_limit_c;
}

std::string_view kindOf(const Part& part) {
    return kind_names[part.body.index()];
}

std::span<const std::string> kinds() {
    return kind_names;
}

std::optional<Body> makeBody(std::string_view kind) {
    const auto place = std::ranges::find(kind_names, kind);
    if (place == kind_names.end())
        return std::nullopt;
    return bodyAt(static_cast<std::size_t>(place - kind_names.begin()));
}

std::vector<std::string> terminalsOf(const Part& part) {
    return std::visit([](const auto& body) { return terminals(body); }, part.body);
}

std::vector<NamedJoint> jointsOf(Part& part) {
    if (auto* splice = std::get_if<Splice>(&part.body))
        return {{part.id + ".sleeve", &splice->sleeve}};
    if (auto* plug = std::get_if<Plug>(&part.body))
        return {{part.id + ".plus", &plug->plus}, {part.id + ".minus", &plug->minus}};
    if (auto* bond = std::get_if<Bond>(&part.body))
        return {{part.id + ".lug", &bond->lug}};
    return {};
}

std::vector<NamedJoint> jointsOf(Run& run) {
    std::vector<NamedJoint> joints;
    for (std::size_t i = 0; i < run.cores.size(); ++i) {
        joints.push_back({run.endName(i, "from"), &run.cores[i].joint_from});
        joints.push_back({run.endName(i, "to"), &run.cores[i].joint_to});
    }
    return joints;
}

std::optional<Value> get(const Part& part, const Key& key) {
    return fieldOf(key).get(part);
}

void set(Part& part, const Key& key, const Value& value) {
    fieldOf(key).set(part, value);
}

} // namespace installation
} // namespace ebbline
