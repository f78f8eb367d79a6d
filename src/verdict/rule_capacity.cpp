// SPDX-License-Identifier: MIT
// Current-carrying capacity by published table, ambient temperature and bundling.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>

namespace ebbline::verdict {
namespace {

double areaOf(const Size& size) {
    if (size.scale == SizeScale::Mm2)
        return size.value;
    return size.scale == SizeScale::Awg ? network::awgArea(size.value)
                                        : network::saeArea(size.value).value_or(0);
}

/// The row of that size, or of the thickest one that is no thicker.
const std::vector<double>* findRow(const CapacityTable& table, const Size& size) {
    const bool both_gauges = table.scale != SizeScale::Mm2 && size.scale != SizeScale::Mm2;
    if (both_gauges && table.amps.contains(size.value))
        return &table.amps.at(size.value);
    const std::vector<double>* best = nullptr;
    double best_mm2 = 0;
    for (const auto& [value, amps] : table.amps) {
        const double row_mm2 = areaOf({table.scale, value});
        if (row_mm2 <= areaOf(size) * (1 + 1e-9) && row_mm2 > best_mm2) {
            best = &amps;
            best_mm2 = row_mm2;
        }
    }
    return best;
}

/// Share of the capacity left at an ambient temperature. Between the table's own and that of an
/// engine space a straight line, where the latter is published; else by the heat a conductor gives
/// off, which goes with the square of the current.
double ambientFactor(const CapacityTable& table, double insulation_c, double ambient_c) {
    if (ambient_c <= table.ambient_c)
        return 1;
    if (ambient_c >= insulation_c)
        return 0;
    const double by_heat = std::sqrt((insulation_c - ambient_c) / (insulation_c - table.ambient_c));
    const auto hot = table.hot_factors.find(insulation_c);
    if (hot == table.hot_factors.end())
        return by_heat;
    if (ambient_c > table.hot_ambient_c)
        return std::min(by_heat, hot->second);
    const double way = (ambient_c - table.ambient_c) / (table.hot_ambient_c - table.ambient_c);
    return 1 - way * (1 - hot->second);
}

/// Factor for so many circuits: that of the next larger number there is, else of the largest.
std::optional<double> bundleFactor(const Bundling* bundling, double circuits) {
    if (circuits <= 1)
        return 1;
    if (bundling == nullptr || bundling->factors.empty())
        return std::nullopt;
    const auto at = bundling->factors.lower_bound(circuits);
    return at == bundling->factors.end() ? std::prev(at)->second : at->second;
}

std::string howWords(double amps, double ambient, double bundle, const Laying& laying) {
    std::string how = text::figure(amps) + " A";
    if (ambient != 1)
        how += words(" x {} at {} °C", text::fixed(ambient, 2), text::fixed(laying.ambient_c, 0));
    if (bundle != 1)
        how += words(" x {} for {} circuits together",
                     text::fixed(bundle, 2),
                     text::figure(laying.circuits));
    return how;
}

} // namespace

std::optional<Capacity> findCapacity(const CapacityTable& table,
                                     const Bundling* bundling,
                                     const Size& size,
                                     const Laying& laying) {
    const auto better = std::ranges::upper_bound(table.insulation_c, laying.insulation_c);
    const std::vector<double>* row = findRow(table, size);
    const auto bundle = bundleFactor(bundling, laying.circuits);
    if (better == table.insulation_c.begin() || row == nullptr || !bundle)
        return std::nullopt;
    const auto column = static_cast<std::size_t>(better - table.insulation_c.begin()) - 1;
    const double insulation_c = table.insulation_c[column];
    const double ambient = ambientFactor(table, insulation_c, laying.ambient_c);
    const bool published = ambient == 1 || (laying.ambient_c == table.hot_ambient_c &&
                                            table.hot_factors.contains(insulation_c));
    return Capacity{.amps = (*row)[column] * ambient * *bundle,
                    .unchecked =
                        table.source.from_memory || !published ||
                        (bundling != nullptr && *bundle != 1 && bundling->source.from_memory),
                    .how = howWords((*row)[column], ambient, *bundle, laying)};
}

} // namespace ebbline::verdict
