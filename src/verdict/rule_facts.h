// SPDX-License-Identifier: MIT
// What all rules look at: one conductor, one fuse, the fridge's feed, the chosen set.
#pragma once

#include "ebbline/error.h"
#include "ebbline/rules.h"
#include "ebbline/survey.h"

#include <optional>
#include <string>
#include <vector>

namespace ebbline::verdict {

/// A conductor as rules see it.
struct Conductor {
    std::string name;
    Size size;
    std::string material; ///< its class in the catalogue
    double length_m = 0;
    double area_mm2 = 0;
    bool in_sheath = false; ///< one of several cores
    Laying laying;
};

struct Facts {
    const Network& network;
    const Catalogues& catalogues;
    const Evidence& evidence;
    const RuleSettings& settings;
    RuleSet set = RuleSet::None;
    Survey survey;

    [[nodiscard]] const Installation& drawn() const { return network.installation; }
    [[nodiscard]] const Element& element(int index) const {
        return network.elements[static_cast<std::size_t>(index)];
    }
    [[nodiscard]] const RuleTables& tables() const { return catalogues.rules; }
    [[nodiscard]] bool isBoat() const {
        return set == RuleSet::SmallCraftIso || set == RuleSet::SmallCraftUs;
    }

    /// Only where there is one.
    [[nodiscard]] const SupplyLoop& loop() const {
        EBBLINE_ASSERT(network.loop.has_value(), "these rules are judged on a closed loop");
        return *network.loop;
    }
    /// The elements of the supply loop from battery plus to the fridge; empty without a loop.
    [[nodiscard]] std::vector<int> out() const;
    [[nodiscard]] std::vector<int> back() const;
    /// Those of them that are conductors.
    [[nodiscard]] std::vector<Conductor> conductors(const std::vector<int>& elements) const;
    /// Fuses and breakers among them, in order.
    [[nodiscard]] std::vector<int> protectors(const std::vector<int>& elements) const;

    [[nodiscard]] std::optional<Conductor> findConductor(int element) const;
    /// Capacity by the set's own table; nothing when the set has none, or none of that size.
    [[nodiscard]] std::optional<Capacity> capacityOf(const Conductor& conductor) const;
    [[nodiscard]] std::string capacitySource() const;
    /// What is missing for it, as a sentence.
    [[nodiscard]] std::string whyNoCapacity(const Conductor& conductor) const;
    /// Current in an element of the feed or return with everything on that shares it, A.
    [[nodiscard]] double carriedAmps(int element, double fridge_a) const;

    /// Ohms of an element while the fridge runs with so many amperes and everything is on: a film
    /// as far as it then gives way. `warm`: a conductor whose capacity is published as warm as it
    /// then settles, else at the ambient temperature.
    [[nodiscard]] double runningOhm(int element, double fridge_a, bool warm) const;

    /// Rating of a fuse or breaker, A.
    [[nodiscard]] double ratingOf(int element) const;
    [[nodiscard]] bool isFuse(int element) const {
        return this->element(element).kind == ElementKind::Fuse;
    }
    /// Current of another consumer in steady use, A; 0 of what is no load.
    [[nodiscard]] double loadAmps(int element) const;
    /// Running current of the fridge; of the held-off twin where the cut-out acted.
    [[nodiscard]] std::optional<double> runningAmps() const;
};

/// What is the case; the installation must outlive it.
[[nodiscard]] Facts collectFacts(const Network& network,
                                 const Catalogues& catalogues,
                                 const Evidence& evidence,
                                 const RuleSettings& settings);

using Findings = std::vector<RuleFinding>;

/// One family of rules each; they add what they find.
void judgeRuleSet(const Facts& facts, Findings& findings);
void judgeHeadroom(const Facts& facts, Findings& findings);
void judgeDrop(const Facts& facts, Findings& findings);
void judgeFusePlace(const Facts& facts, Findings& findings);
void judgeUnfused(const Facts& facts, Findings& findings);
void judgeFuseForStart(const Facts& facts, Findings& findings);
void judgeFuseForConductor(const Facts& facts, Findings& findings);
void judgeConductors(const Facts& facts, Findings& findings);
void judgeBreakingCapacity(const Facts& facts, Findings& findings);
void judgeDeadShort(const Facts& facts, Findings& findings);
void judgeReturn(const Facts& facts, Findings& findings);
void judgeSharedFeed(const Facts& facts, Findings& findings);

} // namespace ebbline::verdict
