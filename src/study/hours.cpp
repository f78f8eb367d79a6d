// SPDX-License-Identifier: MIT
// A day of cycling: steady points, the way down, real starts on that way, the day with them.
#include "day.h"

#include "ebbline/error.h"
#include "ebbline/words.h"

#include <algorithm>
#include <functional>
#include <map>
#include <utility>

namespace ebbline::study {
namespace {

constexpr double limit_resolution = 0.002; // of the charge
constexpr std::size_t most_states = 6;     // combinations of switches in which starts are tried

/// The network as it stands at one moment, nothing switched any more.
Network frozen(const Network& network, const Switches& switches, double charge) {
    Network made = network;
    made.installation.events.clear();
    for (std::size_t i = 0; i < made.elements.size(); ++i) {
        Element& element = made.elements[i];
        if (!element.linear && element.kind != ElementKind::Battery)
            element.closed = switches[i];
        element.switchings.clear();
    }
    const Element& battery = network.elements[batteriesOf(network)[feedingBattery(network)]];
    for (Part& part : made.installation.parts)
        if (part.id == battery.part)
            std::get<Battery>(part.body).charge_pct = 100 * charge;
    return made;
}

class StartSearch {
public:
    StartSearch(Engine& engine, const Network& network, const Models& models)
        : m_engine(engine), m_network(network), m_models(models) {}

    /// Where starts begin to fail between two charges; nothing when the lower one starts.
    [[nodiscard]] std::optional<StartLimit>
    find(const Switches& switches, double low, double high) {
        const Outcome at_low = startAt(switches, low);
        if (at_low == Outcome::Starts)
            return std::nullopt;
        StartLimit limit{.switches = switches, .charge = low, .outcome = at_low};
        if (const Outcome at_high = startAt(switches, high); at_high != Outcome::Starts) {
            // Above where the day begins nothing is known: it fails from there down.
            return StartLimit{switches, high + limit_resolution, at_high};
        }
        double fails = low;
        double starts = high;
        while (starts - fails > limit_resolution) {
            const double middle = (fails + starts) / 2;
            const Outcome outcome = startAt(switches, middle);
            (outcome == Outcome::Starts ? starts : fails) = middle;
            if (outcome != Outcome::Starts)
                limit.outcome = outcome;
        }
        limit.charge = (fails + starts) / 2;
        return limit;
    }

private:
    Outcome startAt(const Switches& switches, double charge) {
        const Netlist netlist =
            netlist::build(frozen(m_network, switches, charge), m_models, {.attempts = 1});
        return start::read(requireSolved(m_engine.run({&netlist.job, 1}).front()), netlist).outcome;
    }

    Engine& m_engine;
    const Network& m_network;
    const Models& m_models;
};

/// Lowest and highest charge at which the day starts with the same switches.
struct Reach {
    double low = 1;
    double high = 0;
    int starts = 0;
};

std::vector<StartLimit> findLimits(StartSearch& search, const Day& way, std::size_t feeding) {
    std::map<Switches, Reach> states;
    for (const DayStart& start : way.starts) {
        Reach& reach = states[start.switches];
        reach.low = std::min(reach.low, start.charges[feeding]);
        reach.high = std::max(reach.high, start.charges[feeding]);
        ++reach.starts;
    }
    std::vector<std::pair<Switches, Reach>> most(states.begin(), states.end());
    std::ranges::sort(
        most, {}, [](const auto& state) { return std::pair(-state.second.starts, state.first); });
    most.resize(std::min(most.size(), most_states));
    std::vector<StartLimit> limits;
    for (const auto& [switches, reach] : most)
        if (auto limit = search.find(switches, reach.low, reach.high))
            limits.push_back(std::move(*limit));
    std::ranges::sort(limits, std::greater<>(), &StartLimit::charge);
    return limits;
}

void readEnd(const Day& way, Hours& hours) {
    hours.looked_at_h = longest_h;
    for (const DayEvent& event : way.events)
        if (event.what == DayHappening::CutOut || event.what == DayHappening::BatteryFlat) {
            (event.what == DayHappening::CutOut ? hours.cut_out_h : hours.flat_h) = event.at_h;
            hours.charge_at_end = event.charge;
            hours.looked_at_h = event.at_h;
            return;
        }
}

void readFirstFailure(const Day& way, Hours& hours) {
    const auto first = std::ranges::find(way.events, DayHappening::StartFails, &DayEvent::what);
    if (first != way.events.end())
        hours.start_fails_h = first->at_h;
}

} // namespace

double copAt(const BoxLoad& box, double ambient_c) {
    // models/README.md, Box: in proportion to the ideal between evaporator and condenser.
    constexpr double evaporator_c = -10;
    constexpr double above_ambient_k = 20;
    constexpr double least_condenser_c = 20;
    constexpr double stated_at_c = 25;
    const auto lift = [&](double ambient) {
        return std::max(ambient + above_ambient_k, least_condenser_c) - evaporator_c;
    };
    return box.cop * lift(stated_at_c) / lift(ambient_c);
}

Hours runHours(Engine& engine,
               const Installation& installation,
               const Models& models,
               const Progress& progress) {
    const Part* subject = installation.findPart(installation.subject);
    return runHours(
        engine, installation, models, boxOf(std::get<Controller>(subject->body)), progress);
}

Hours runHours(Engine& engine,
               const Installation& installation,
               const Models& models,
               const BoxLoad& box,
               const Progress& progress) {
    Hours hours;
    hours.network = network::reduce(network::build(installation, models.catalogues));
    if (!hours.network.loop || batteriesOf(hours.network).empty())
        throw SceneError({Problem{.message = words("no battery feeds the fridge: 'ebbline check' "
                                                   "says where its loop is open")}});
    hours.box = box;
    hours.ambient_cop = copAt(box, installation.surroundings.ambient_c);
    progress(words("simulating steady running and the battery at rest"));
    hours.characteristics = characterize(engine, hours.network, models);
    progress(words("following the battery down"));
    const Day way = follow(hours.network,
                           hours.characteristics,
                           {.box = box, .until_h = longest_h, .to_the_end = true});
    readEnd(way, hours);
    progress(words("trying starts on the way down"));
    StartSearch search(engine, hours.network, models);
    hours.limits = findLimits(search, way, feedingBattery(hours.network));
    if (!way.starts.empty())
        hours.lowest_start_charge = way.starts.back().charges[feedingBattery(hours.network)];
    if (!hours.limits.empty())
        readFirstFailure(
            follow(hours.network,
                   hours.characteristics,
                   {.box = box, .until_h = longest_h, .to_the_end = true, .limits = hours.limits}),
            hours);
    hours.day = follow(hours.network, hours.characteristics, {.box = box, .limits = hours.limits});
    return hours;
}

} // namespace ebbline::study

namespace ebbline {

std::string_view nameOf(DayHappening what) {
    switch (what) {
    case DayHappening::CutOut:
        return "cut-out";
    case DayHappening::BatteryFlat:
        return "battery-flat";
    case DayHappening::StartFails:
        return "start-fails";
    case DayHappening::RunsAgain:
        return "runs-again";
    case DayHappening::FuseOpens:
        return "fuse-opens";
    }
    return "";
}

} // namespace ebbline
