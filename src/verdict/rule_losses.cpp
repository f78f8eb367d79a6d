// SPDX-License-Identifier: MIT
// Where it is lost: what of each loss need not be, what it rests on, and the sum on paper.
#include "rule_facts.h"
#include "rule_reference.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>

namespace ebbline {

std::string_view nameOf(Basis basis) {
    switch (basis) {
    case Basis::Standard:
        return "standard";
    case Basis::Typical:
        return "typical";
    case Basis::Estimate:
        return "estimate";
    case Basis::Measured:
        return "measured";
    }
    return "";
}

namespace verdict {
namespace {

constexpr double worth_saying_v = 0.002; // inductive share that a sum mentions

std::string volts(double value) {
    return text::fixed(value, std::abs(value) < 0.1 ? 3 : 2) + " V";
}

/// At most `decimals`, without zeros at the end.
std::string rounded(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    return text::figure(std::round(value * scale) / scale);
}

std::string ohmicSum(double ohm, double amps) {
    return rounded(ohm * 1e3, 3) + " mohm x " + text::fixed(amps, 2) + " A = " + volts(ohm * amps);
}

/// Length x resistance per metre x current. The factor of temperature shows where there is one.
std::string conductorSum(const Facts& facts,
                         const Conductor& conductor,
                         const Element& element,
                         const LedgerRow& row) {
    const auto mohm_per_m =
        network::conductorMohmPerM(conductor.size, conductor.material, facts.catalogues);
    const double known_mohm_per_m = mohm_per_m.value_or(0);
    const double at_20_c_ohm = known_mohm_per_m * 1e-3 * conductor.length_m;
    const double factor = at_20_c_ohm > 0 ? element.ohm / at_20_c_ohm : 0;
    const Run* run = facts.drawn().findRun(element.part);
    const double ambient_c =
        run != nullptr && run->ambient_c ? *run->ambient_c : facts.drawn().surroundings.ambient_c;
    std::string sum;
    // Damage to strands and the like is no matter of temperature: then the resistance is said.
    if (std::abs(factor - (234.5 + ambient_c) / 254.5) > 1e-6) {
        sum = ohmicSum(element.ohm, row.amps);
    } else {
        sum = rounded(conductor.length_m, 3) + " m x " + rounded(known_mohm_per_m, 3) + " mohm/m";
        if (std::abs(factor - 1) > 1e-9)
            sum += " x " + text::fixed(factor, 3) + " (" + rounded(ambient_c, 1) + " °C)";
        sum += " x " + text::fixed(row.amps, 2) + " A = " + volts(element.ohm * row.amps);
    }
    const double changing_v = row.volts - element.ohm * row.amps;
    if (std::abs(changing_v) > worth_saying_v)
        sum += words(", and {} while the current changes", volts(changing_v));
    return sum;
}

int findElement(const Network& network, const std::string& name) {
    const auto at = std::ranges::find(network.elements, name, &Element::name);
    return at == network.elements.end() ? -1 : static_cast<int>(at - network.elements.begin());
}

std::string sentence(const Reference& reference, const Loss& loss) {
    return loss.avoidable_v > 0 ? reference.remedy : "";
}

Loss lossOf(const Facts& facts, const LedgerRow& row) {
    Loss loss{.element = row.element, .side = row.side, .volts = row.volts};
    const int index = findElement(facts.network, row.element);
    if (!row.ohms || index < 0) {
        loss.sum = words("no current");
        return loss;
    }
    const Element& element = facts.element(index);
    const auto conductor = facts.findConductor(index);
    loss.sum = row.isOpen() ? words("open")
               : conductor  ? conductorSum(facts, *conductor, element, row)
                            : ohmicSum(*row.ohms, row.amps);
    const Reference reference = conductor ? findSizeReference(facts, *conductor, element, row.amps)
                                          : findReference(facts, element, *row.ohms);
    loss.basis = reference.basis;
    loss.avoidable_v = std::max(0.0, row.volts * reference.avoidable_share);
    loss.remedy = sentence(reference, loss);
    return loss;
}

} // namespace

std::vector<Loss> findLosses(const Network& network,
                             const Catalogues& catalogues,
                             const Evidence& evidence,
                             const RuleSettings& settings) {
    std::vector<Loss> losses;
    if (!evidence.start.ledger)
        return losses;
    const Facts facts = collectFacts(network, catalogues, evidence, settings);
    for (const LedgerRow& row : evidence.start.ledger->rows)
        losses.push_back(lossOf(facts, row));
    return losses;
}

} // namespace verdict
} // namespace ebbline
