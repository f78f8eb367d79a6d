// SPDX-License-Identifier: MIT
// Collects what the rules look at from the drawing, its graph and its survey.
#include "rule_facts.h"

#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>

namespace ebbline::verdict {
namespace {

constexpr double on_the_way_m = 0.02; // a cable so close to a way's line is laid along it

double distance(const Position& point, const Position& from, const Position& to) {
    const double x = to.x_m - from.x_m;
    const double y = to.y_m - from.y_m;
    const double square = x * x + y * y;
    const double along =
        square == 0 ? 0
                    : std::clamp(((point.x_m - from.x_m) * x + (point.y_m - from.y_m) * y) / square,
                                 0.0,
                                 1.0);
    return std::hypot(point.x_m - from.x_m - along * x, point.y_m - from.y_m - along * y);
}

bool liesOn(const Position& point, const Way& way) {
    for (std::size_t i = 1; i < way.line_m.size(); ++i)
        if (distance(point, way.line_m[i - 1], way.line_m[i]) <= on_the_way_m)
            return true;
    return false;
}

/// Whether a stretch of the route follows the way: both its ends and its middle lie on it.
bool follows(const Run& run, const Way& way) {
    for (std::size_t i = 1; i < run.route_m.size(); ++i) {
        const Position& from = run.route_m[i - 1];
        const Position& to = run.route_m[i];
        const Position middle{(from.x_m + to.x_m) / 2, (from.y_m + to.y_m) / 2};
        if (from != to && liesOn(from, way) && liesOn(middle, way) && liesOn(to, way))
            return true;
    }
    return false;
}

/// The hottest place that the run passes.
double ambientOf(const Installation& drawn, const Run& run) {
    double hottest_c = run.ambient_c.value_or(drawn.surroundings.ambient_c);
    for (const Way& way : drawn.ways)
        if (way.ambient_c && follows(run, way))
            hottest_c = std::max(hottest_c, *way.ambient_c);
    return hottest_c;
}

Conductor describe(const Facts& facts, const Run& run, std::size_t core) {
    const double cores = static_cast<double>(run.cores.size());
    return {
        .name = run.coreName(core),
        .size = run.cores[core].size,
        .material = run.cores[core].conductor,
        .length_m = run.length(),
        .area_mm2 = 0,
        .in_sheath = run.cores.size() > 1,
        .laying = {.insulation_c = facts.settings.insulation_c,
                   .ambient_c = ambientOf(facts.drawn(), run),
                   // Two cores are one circuit, out and back.
                   .circuits = std::max(facts.settings.bundled_circuits, std::ceil(cores / 2))}};
}

std::vector<int> elementsOf(const std::vector<Step>& way) {
    std::vector<int> elements;
    elements.reserve(way.size());
    for (const Step& step : way)
        elements.push_back(step.element);
    return elements;
}

} // namespace

std::vector<int> Facts::out() const {
    return network.loop ? elementsOf(network.loop->out) : std::vector<int>();
}

std::vector<int> Facts::back() const {
    return network.loop ? elementsOf(network.loop->back) : std::vector<int>();
}

std::vector<Conductor> Facts::conductors(const std::vector<int>& elements) const {
    std::vector<Conductor> found;
    for (const int index : elements)
        if (auto conductor = findConductor(index))
            found.push_back(std::move(*conductor));
    return found;
}

std::vector<int> Facts::protectors(const std::vector<int>& elements) const {
    std::vector<int> found;
    std::ranges::copy_if(elements, std::back_inserter(found), [&](int index) {
        const ElementKind kind = element(index).kind;
        return kind == ElementKind::Fuse || kind == ElementKind::Breaker;
    });
    return found;
}

std::optional<Conductor> Facts::findConductor(int element) const {
    const Element& drawn_element = this->element(element);
    if (drawn_element.kind != ElementKind::Conductor)
        return std::nullopt;
    std::optional<Conductor> found;
    if (const Run* run = drawn().findRun(drawn_element.part)) {
        for (std::size_t core = 0; core < run->cores.size(); ++core)
            if (run->coreName(core) == drawn_element.name)
                found = describe(*this, *run, core);
    } else if (const Part* part = drawn().findPart(drawn_element.part)) {
        if (const auto* leads = std::get_if<BenchLeads>(&part->body))
            found = Conductor{.name = drawn_element.name,
                              .size = {SizeScale::Mm2, leads->area_mm2},
                              .material = BenchLeads::conductor,
                              .length_m = leads->length_m,
                              .laying = {.insulation_c = settings.insulation_c,
                                         .ambient_c = drawn().surroundings.ambient_c}};
    }
    EBBLINE_ASSERT(found.has_value(), "every conductor is a core of a run or a bench lead");
    found->area_mm2 = drawn_element.area_mm2;
    return found;
}

std::optional<Capacity> Facts::capacityOf(const Conductor& conductor) const {
    const auto table = tables().capacities.find(std::string(nameOf(set)));
    if (table == tables().capacities.end())
        return std::nullopt;
    const auto bundling = tables().bundlings.find("bundle");
    return findCapacity(table->second,
                        bundling == tables().bundlings.end() ? nullptr : &bundling->second,
                        conductor.size,
                        conductor.laying);
}

std::string Facts::capacitySource() const {
    const auto table = tables().capacities.find(std::string(nameOf(set)));
    return table == tables().capacities.end() ? "" : table->second.source.text;
}

std::string Facts::whyNoCapacity(const Conductor& conductor) const {
    if (set == RuleSet::None)
        return words("The table of capacities depends on the rule set, and none is chosen.");
    if (capacitySource().empty())
        return words("No published table of capacities is known here for {}.", nameOf(set));
    return words("{} has no entry for {} with {} °C insulation.",
                 capacitySource(),
                 network::sizeWords(conductor.size),
                 text::figure(conductor.laying.insulation_c));
}

double Facts::carriedAmps(int element, double fridge_a) const {
    double amps = fridge_a;
    for (const Sharing& sharing : survey.sharings)
        if (std::ranges::count(sharing.out, element) > 0 ||
            std::ranges::count(sharing.back, element) > 0)
            amps += loadAmps(sharing.consumer);
    return amps;
}

double Facts::runningOhm(int element, double fridge_a, bool warm) const {
    const Element& drawn_element = this->element(element);
    const double amps = carriedAmps(element, fridge_a);
    if (drawn_element.film_ohm > 0)
        return network::jointOhm(drawn_element, amps);
    const auto conductor = warm ? findConductor(element) : std::nullopt;
    const auto capacity = conductor ? capacityOf(*conductor) : std::nullopt;
    if (!capacity || capacity->amps <= 0)
        return drawn_element.ohm;
    const auto& [insulation_c, ambient_c, circuits] = conductor->laying;
    const double warm_c = conductorTemperature(ambient_c, insulation_c, amps, capacity->amps);
    return drawn_element.ohm * network::conductorOhm(1, 1, warm_c) /
           network::conductorOhm(1, 1, ambient_c);
}

double Facts::ratingOf(int element) const {
    const Part* part = drawn().findPart(this->element(element).part);
    EBBLINE_ASSERT(part != nullptr, "fuses and breakers are parts");
    if (const auto* fuse = std::get_if<Fuse>(&part->body))
        return fuse->rating_a;
    if (const auto* breaker = std::get_if<Breaker>(&part->body))
        return breaker->rating_a;
    return std::get<BenchLeads>(part->body).rating_a;
}

double Facts::loadAmps(int element) const {
    const Part* part = drawn().findPart(this->element(element).part);
    const auto* load = part == nullptr ? nullptr : std::get_if<Load>(&part->body);
    if (load == nullptr)
        return 0;
    if (load->law == "current")
        return load->current_a;
    return load->law == "power" ? load->power_w / drawn().nominal_v
                                : drawn().nominal_v / load->resistance_ohm;
}

std::optional<double> Facts::runningAmps() const {
    if (evidence.start.running_a)
        return evidence.start.running_a;
    return evidence.held_off == nullptr ? std::nullopt : evidence.held_off->running_a;
}

Facts collectFacts(const Network& network,
                   const Catalogues& catalogues,
                   const Evidence& evidence,
                   const RuleSettings& settings) {
    return {.network = network,
            .catalogues = catalogues,
            .evidence = evidence,
            .settings = settings,
            .set = findRuleSet(network.installation.rules).value_or(RuleSet::None),
            .survey = network::survey(network)};
}

} // namespace ebbline::verdict
