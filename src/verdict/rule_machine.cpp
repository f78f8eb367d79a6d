// SPDX-License-Identifier: MIT
// What is wrong with the unit itself, so that nobody looks for it in the supply.
#include "rule_machine.h"

#include "ebbline/running.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

namespace ebbline::verdict {
namespace {

// ESTIMATE, all of them: what one would find with a meter or by hand.
constexpr double slack_mohm = 50;   // of a plug; a new pair of pins has a few
constexpr double open_mohm = 1e4;   // no motor turns through so much
constexpr double open_times = 10;   // a winding's resistance over that of its kind
constexpr double stiff_times = 2.5; // friction over that of its kind; cold oil alone doubles it
constexpr double drifted_v = 0.05;  // of a cut-out above that of its kind

const Part& unitPart(const Facts& facts) {
    return *facts.drawn().findPart(facts.drawn().subject);
}

const Controller& unitOf(const Facts& facts) {
    return std::get<Controller>(unitPart(facts).body);
}

/// The unit as its model's catalogue entry has it.
Controller kindOf(const Facts& facts) {
    return std::get<Controller>(installation::bareOf(unitPart(facts), facts.catalogues).body);
}

std::string measurePins() {
    return words("Isolate, pull the compressor's plug, and measure its three pairs of pins against "
                 "each other: they must be alike.");
}

/// The cut-out that applies, of a unit and of its kind.
std::pair<double, double> cutOuts(const Facts& facts) {
    const Controller& unit = unitOf(facts);
    const Controller kind = kindOf(facts);
    const double nominal_v = unit.nominal_v > 0 ? unit.nominal_v : facts.drawn().nominal_v;
    return nominal_v > 18 ? std::pair(unit.cut_out_24_v, kind.cut_out_24_v)
                          : std::pair(unit.cut_out_v, kind.cut_out_v);
}

/// It would have stayed on with the cut-out of its kind.
std::optional<Headline> blameCutOut(const Facts& facts) {
    const auto [own_v, kind_v] = cutOuts(facts);
    const auto& lowest_v = facts.evidence.verdict.held_off_lowest_v;
    const bool is_known = !unitPart(facts).model.empty();
    if (!is_known || own_v < kind_v + drifted_v || !lowest_v || *lowest_v < kind_v)
        return std::nullopt;
    return Headline{
        words("Does not start: its cut-out acts at {} V, others of its kind at {} V; held on, the "
              "supply falls no lower than {} V.",
              text::fixed(own_v, 2),
              text::fixed(kind_v, 2),
              text::fixed(lowest_v, 2)),
        words("Measure at its terminals at which voltage it cuts out, then set it or replace the "
              "controller."),
        facts.drawn().subject};
}

} // namespace

std::optional<MachineFault> findMachineFault(const Facts& facts) {
    const Controller& unit = unitOf(facts);
    const Controller kind = kindOf(facts);
    if (unit.plug_mohm > open_mohm)
        return MachineFault{words("its plug is open at a pin"),
                            words("Isolate, pull the compressor's plug, and renew the pin that is "
                                  "loose or burnt.")};
    if (unit.plug_mohm > slack_mohm)
        return MachineFault{words("a pin of its plug is slack"),
                            words("Isolate, pull the compressor's plug, and renew the pin that is "
                                  "loose or burnt.")};
    if (unit.winding_ohm > open_times * kind.winding_ohm)
        return MachineFault{words("a winding of its motor is open"), measurePins()};
    if (unit.shorted_pct > 0)
        return MachineFault{words("turns of its motor's winding are shorted"), measurePins()};
    if (unit.friction > stiff_times * kind.friction)
        return MachineFault{
            words("its shaft turns hard or is seized"),
            words("Let it come to room temperature and try again; a seized compressor is for "
                  "people licensed for refrigerant.")};
    return std::nullopt;
}

Headline blameController(const Facts& facts) {
    const Controller& unit = unitOf(facts);
    const std::string& fridge = facts.drawn().subject;
    if (unit.dead)
        return {words("Does nothing, though it is supplied and called: the controller is dead."),
                words("Measure supply and call at its own terminals; if both are there, replace "
                      "the controller."),
                fridge};
    return {words("Does nothing: its shell has {} °C, and above {} °C it protects itself.",
                  text::fixed(unit.shell_c, 0),
                  text::fixed(unit.shell_limit_c, 0)),
            words("Let it cool, and see that air gets to its condenser; then try again."),
            fridge};
}

std::optional<Headline> blameUnit(const Facts& facts) {
    const Start& start = facts.evidence.start;
    const bool is_slow = start::isSlow(start, unitOf(facts));
    if (start.outcome == Outcome::Starts && !is_slow)
        return std::nullopt;
    const auto fault = findMachineFault(facts);
    const std::string& fridge = facts.drawn().subject;
    if (is_slow)
        return fault ? std::optional(Headline{
                           words("Runs, but too slowly: {}.", fault->cause), fault->action, fridge})
                     : std::nullopt;
    if (fault)
        return Headline{words("Does not start: {}, so it asks more of the supply than it should.",
                              fault->cause),
                        fault->action,
                        fridge};
    return blameCutOut(facts);
}

} // namespace ebbline::verdict
