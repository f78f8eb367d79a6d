// SPDX-License-Identifier: MIT
// A controller from five numbers that one can get: what is left open is fitted by simulation.
#pragma once

#include "ebbline/study.h"

#include <optional>

namespace ebbline {

/// What a plate, a bench supply and a clamp meter say of a unit.
struct UnitFigures {
    double nominal_v = 12; ///< 12 or 24
    double cut_out_v = 10.5;
    double cut_in_v = 11.3;
    double start_a = 8;                 ///< highest of a start, from the supply
    double running_a = 4;               ///< steady, from the supply
    std::optional<double> running_at_v; ///< where it was measured; absent: the nominal voltage
};

/// A unit that draws these currents, and what was turned to make it so.
struct UnitFit {
    UnitFigures asked;
    Controller unit;
    double running_at_v = 12;
    double rest_v = 12.65; ///< of the stiff supply on which it is started
    double running_a = 0;  ///< reached, as simulated
    double start_a = 0;
};

namespace study {

/// The catalogue entry from which everything is taken that five numbers do not say.
inline constexpr const char* fitted_from = "small-12-24";

/// Fits displacement to the running current and the spin-up to the highest start current.
/// Throws SceneError for figures that contradict each other or lie out of reach, EngineError.
[[nodiscard]] UnitFit
fitUnit(Engine& engine, const UnitFigures& figures, const Models& models, const Progress& progress);

} // namespace study
} // namespace ebbline
