// SPDX-License-Identifier: MIT
// Conductor sizes in the scale that the reader wants.
#include "ebbline/network.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ebbline::network {
namespace {

/// 1/0 and thicker are stored as 0, -1 ...
std::string gaugeWords(double gauge) {
    return gauge < 1 ? text::number(1 - gauge) + "/0" : text::number(gauge);
}

std::string areaWords(double area_mm2) {
    // Three digits: gauges come to 3.3088 mm2 and the like.
    const double scale = std::pow(10, 2 - std::floor(std::log10(area_mm2)));
    return text::figure(std::round(area_mm2 * scale) / scale) + " mm2";
}

std::string asDrawn(const Size& size) {
    if (size.scale == SizeScale::Mm2)
        return text::figure(size.value) + " mm2";
    return (size.scale == SizeScale::Awg ? "AWG " : "SAE ") + gaugeWords(size.value);
}

std::string inMm2(const Size& size) {
    if (size.scale == SizeScale::Mm2)
        return asDrawn(size);
    return areaWords(size.scale == SizeScale::Awg ? awgArea(size.value)
                                                  : saeArea(size.value).value_or(0));
}

/// A drawn gauge stays; of a cross-section the nearest there is.
std::string inGauge(const Size& size) {
    return size.scale == SizeScale::Mm2
               ? words("about {}", "AWG " + gaugeWords(nearestGauge(size.value)))
               : asDrawn(size);
}

} // namespace

double nearestGauge(double area_mm2) {
    constexpr std::array<double, 17> sold{
        24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3};
    return *std::ranges::min_element(
        sold, {}, [&](double gauge) { return std::abs(std::log(awgArea(gauge) / area_mm2)); });
}

std::string sizeWords(const Size& size, Sizes sizes) {
    switch (sizes) {
    case Sizes::Mm2:
        return inMm2(size);
    case Sizes::Awg:
        return inGauge(size);
    case Sizes::Both:
        return asDrawn(size) + " (" + (size.scale == SizeScale::Mm2 ? inGauge(size) : inMm2(size)) +
               ")";
    case Sizes::Drawn:
        break;
    }
    return asDrawn(size);
}

} // namespace ebbline::network
