// SPDX-License-Identifier: MIT
// What published practice asks of the installation, and where its volts are lost needlessly.
#pragma once

#include "ebbline/verdict.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline {

/// Whose rules; a scene names one by its key `rules`.
enum class RuleSet { None, SmallCraftIso, SmallCraftUs, VehicleAndCabin };
/// "small-craft-iso", ...; empty of None.
[[nodiscard]] std::string_view nameOf(RuleSet set);

enum class RuleState {
    Kept,
    Broken,
    NotJudged, ///< something is missing; the reason says what
};
/// "kept", "broken", "not-judged".
[[nodiscard]] std::string_view nameOf(RuleState state);

/// One rule held against one place of the installation.
struct RuleFinding {
    std::string rule; ///< "fuse-near-battery", ...
    RuleState state = RuleState::NotJudged;
    bool unchecked = false; ///< rests on a published value that was written down from memory
    std::string on;         ///< element or part; empty: the whole
    std::optional<double> value;
    std::optional<double> limit;
    bool limit_is_least = false; ///< value must not lie below it; else: not above it
    std::string unit;            ///< of both
    std::string reason;          ///< a sentence in plain words
    std::string
        source; ///< standard with clause; "common practice" and the like where none is known
    bool operator==(const RuleFinding&) const = default;
};

/// The drop one holds a circuit to. Whether a fridge falls under 3 % or 10 % no rule set says.
struct DropChoice {
    double limit_pct = 3;
    std::string reason; ///< why, in the user's words
};

/// What rules need and no drawing says.
struct RuleSettings {
    std::optional<DropChoice> drop;
    double insulation_c = 70;    ///< temperature rating of the conductors' insulation
    bool sheathed = false;       ///< the way from the battery to its first fuse lies in a sheath
    double bundled_circuits = 1; ///< that lie together along the feed
};

/// What happened in the simulation of the same installation.
struct Evidence {
    const Start& start;
    const Start* held_off = nullptr; ///< there when the cut-out acted
    const Verdict& verdict;
};

/// What a resistance in the ledger rests on.
enum class Basis {
    Standard, ///< a published table
    Typical,  ///< what such parts commonly have, from memory
    Estimate,
    Measured, ///< stated for this very thing
};
/// "standard", "typical", "estimate", "measured".
[[nodiscard]] std::string_view nameOf(Basis basis);

/// One row of the ledger with what of it need not be.
struct Loss {
    std::string element;
    Side side = Side::Out;
    double volts = 0;
    double avoidable_v = 0; ///< beyond a new one of its kind, or the conductor size it should have
    Basis basis = Basis::Estimate;
    std::string sum;    ///< as one does it on paper: "9.1 m x 7.98 mohm/m x 9.4 A = 0.68 V"
    std::string remedy; ///< what avoids it: "4 mm2 instead of 2.5 mm2"; empty when nothing does
    bool operator==(const Loss&) const = default;
};

/// The first line: what is the matter, and what to do first.
struct Headline {
    std::string cause;
    std::string action;       ///< empty when there is nothing to do
    std::string element;      ///< the element or run it speaks of; may be empty
    bool unsafe = false;      ///< it starts, and what is drawn could burn
    bool falls_short = false; ///< the action alone does not make it start
    bool operator==(const Headline&) const = default;
};

namespace verdict {

/// The set of that name; nothing for an unknown one. An empty name is None.
[[nodiscard]] std::optional<RuleSet> findRuleSet(std::string_view name);
/// The names a scene may give.
[[nodiscard]] std::vector<std::string> ruleSetNames();

/// Holds the installation, as built and nothing merged, against every rule. Keeping a drop rule
/// never says that the fridge starts; that is the rule "headroom".
[[nodiscard]] std::vector<RuleFinding> judgeRules(const Network& network,
                                                  const Catalogues& catalogues,
                                                  const Evidence& evidence,
                                                  const RuleSettings& settings);

/// The ledger's rows with what is avoidable in each; empty without a ledger.
[[nodiscard]] std::vector<Loss> findLosses(const Network& network,
                                           const Catalogues& catalogues,
                                           const Evidence& evidence,
                                           const RuleSettings& settings);

/// Cause and first action. Names the largest avoidable loss, wherever on the way it lies.
[[nodiscard]] Headline headline(const Network& network,
                                const Catalogues& catalogues,
                                const Evidence& evidence,
                                const RuleSettings& settings);

/// Volts lost along a conductor: resistivity x current x length / area.
[[nodiscard]] double
conductorDrop(double ohm_mm2_per_m, double amps, double length_m, double area_mm2);

/// Area in circular mils that loses `drop_v`: constant (ohm cmil/ft) x I x length / drop. The US
/// small-craft practice takes 10.75 and the length out and back.
[[nodiscard]] double
areaForDrop(double ohm_cmil_per_ft, double amps, double out_and_back_ft, double drop_v);
inline constexpr double us_ohm_cmil_per_ft = 10.75;
/// The same constant in ohm mm2/m: 10.75 x 1.66243e-3.
inline constexpr double us_ohm_mm2_per_m = us_ohm_cmil_per_ft * 1.66243e-3;

/// The thinnest gauge (1/0 as 0) that holds so many circular mils; nothing beyond 4/0.
[[nodiscard]] std::optional<double> findGauge(double circular_mils, SizeScale scale);

/// Temperature a conductor settles at, C: ambient + (rating - ambient) (I / capacity)^2
/// (simplified from IEC 60287).
[[nodiscard]] double
conductorTemperature(double ambient_c, double rating_c, double amps, double capacity_a);
/// The same, more cautious: (I / capacity)^0.5 (FAA AC 43.13-1B page 11-27; from memory).
[[nodiscard]] double
cautiousTemperature(double ambient_c, double rating_c, double amps, double capacity_a);

/// k of a copper conductor that may heat up once from one temperature to another, A s^0.5 / mm2:
/// 226 sqrt(ln(1 + (final - first) / (234.5 + first))) (IEC 60364-5-54; from memory,
/// reproduces the table of IEC 60364-4-43).
[[nodiscard]] double withstandFactor(double first_c, double final_c);
/// Heat in A2 s that a conductor withstands, (k area)^2.
[[nodiscard]] double withstandHeat(double k, double area_mm2);

/// Shortest and longest time in which a fuse opens at a multiple of its rating, by the published
/// points on either side: never an interpolated value.
[[nodiscard]] FuseLimit findFuseLimit(const FuseKind& kind, double times);

/// Amperes a conductor carries for ever.
struct Capacity {
    double amps = 0;
    bool unchecked = false;
    std::string how; ///< "25 A x 0.94 at 35 °C"
};
/// Where and how a conductor lies.
struct Laying {
    double insulation_c = 70;
    double ambient_c = 30;
    double circuits = 1; ///< that lie together, its own among them
};
/// By the table's row of that size or the next thinner, and its column of that insulation or the
/// next poorer; nothing for a thinner conductor or poorer insulation than it holds.
[[nodiscard]] std::optional<Capacity> findCapacity(const CapacityTable& table,
                                                   const Bundling* bundling,
                                                   const Size& size,
                                                   const Laying& laying);

} // namespace verdict
} // namespace ebbline
