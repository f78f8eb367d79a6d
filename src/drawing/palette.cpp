// SPDX-License-Identifier: MIT
// The two papers: warm and light, or slate and dark. All text keeps 7:1 on every ground it may
// stand on, which a test checks.
#include "ebbline/drawing.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

Colour onLight(Ink ink) {
    switch (ink) {
    case Ink::Desk:
        return {243, 236, 223};
    case Ink::Sheet:
        return {252, 249, 241};
    case Ink::Line:
        return {24, 34, 46};
    case Ink::Soft:
        return {54, 64, 74};
    case Ink::Faint:
        return {140, 130, 110};
    case Ink::Spare:
        return {190, 219, 222};
    case Ink::Fill:
        return {22, 92, 116};
    case Ink::Warning:
        return {118, 34, 12};
    case Ink::Plus:
        return {196, 30, 30};
    }
    return {};
}

Colour onDark(Ink ink) {
    switch (ink) {
    case Ink::Desk:
        return {24, 28, 33};
    case Ink::Sheet:
        return {34, 39, 45};
    case Ink::Line:
        return {244, 238, 224};
    case Ink::Soft:
        return {205, 203, 194};
    case Ink::Faint:
        return {132, 134, 132};
    case Ink::Spare:
        return {30, 60, 70};
    case Ink::Fill:
        return {126, 196, 210};
    case Ink::Warning:
        return {255, 184, 150};
    case Ink::Plus:
        return {255, 112, 100};
    }
    return {};
}

/// Relative luminance of an sRGB colour, WCAG 2.2.
double luminance(Colour colour) {
    const auto channel = [](int value) {
        const double share = value / 255.0;
        return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * channel(colour.red) + 0.7152 * channel(colour.green) +
           0.0722 * channel(colour.blue);
}

} // namespace

Colour colourOf(Ink ink, Paper paper) {
    return paper == Paper::Light ? onLight(ink) : onDark(ink);
}

double contrast(Colour one, Colour other) {
    const double first = luminance(one);
    const double second = luminance(other);
    return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

} // namespace ebbline::drawing
