// SPDX-License-Identifier: MIT
// What would make it start: each kind of remedy in its smallest sufficient step, simulated.
#pragma once

#include "ebbline/study.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline {

enum class RemedyKind {
    // Repairs: back to what was meant.
    SwitchOn,      ///< an isolator, switch or plug that is open
    RenewFuse,     ///< one that has blown, or a breaker that has tripped
    RemakeJoint,   ///< one joint
    RemakeJoints,  ///< every poor one of the supply loop
    RenewContact,  ///< of an isolator or panel switch
    RenewHolder,   ///< of a fuse
    RenewCable,    ///< one with broken strands, by one of the same size
    ChargeBattery, ///< steps of charge, per cent
    RenewBattery,  ///< a new one of its kind, charged
    ChargerOn,     ///< every charging source
    OtherLoadsOff, ///< everything else that draws current
    LetRest,       ///< the fridge: until its pressures are equal and its shell is cool
    MendUnit,      ///< the fridge: what of it is worse than its kind
    // Redesign.
    LargerFuse,    ///< steps of rating, A
    ThickerCable,  ///< steps of size, in the scale of the run
    ShorterWay,    ///< steps of length, m
    DoubleVoltage, ///< 24 V instead of 12 V
};
/// "remake-joint", ... as in files.
[[nodiscard]] std::string_view nameOf(RemedyKind kind);
[[nodiscard]] bool isRepair(RemedyKind kind);

/// One step of a remedy and what it does, at final accuracy.
struct RemedyStep {
    double value = 0; ///< per cent, A, mm2, gauge or m, by kind; 0 where there is but one step
    std::vector<Change> changes;
    Outcome outcome = Outcome::NotPowered;
    Margin margin = Margin::No;
    std::optional<double> headroom_v; ///< where it starts
};

struct Remedy {
    RemedyKind kind = RemedyKind::RemakeJoint;
    std::string on;                   ///< part, run or joint; empty: all that the kind speaks of
    SizeScale scale = SizeScale::Mm2; ///< of a cable's steps
    std::optional<RemedyStep>
        cure; ///< the smallest step that starts clear; absent: not by this alone
    /// The step just below, which does not start clear: absent where that is the drawing itself;
    /// without a cure the largest step there is.
    std::optional<RemedyStep> below;
};

namespace study {

/// "charge house to 80 %": the remedy with one of its steps' values, in the reader's words.
[[nodiscard]] std::string actionWords(const Remedy& remedy, double value);

/// Every remedy that can be tried on the installation, repairs first, cures before what does not
/// suffice. Empty where it starts clear. Throws EngineError.
[[nodiscard]] std::vector<Remedy> findRemedies(Engine& engine,
                                               const Installation& installation,
                                               const Models& models,
                                               const Examination& examination,
                                               const Progress& progress);

} // namespace study
} // namespace ebbline
