// SPDX-License-Identifier: MIT
// What a loss is held against: a new thing of its kind, or the conductor size it should have.
#pragma once

#include "rule_facts.h"

#include <string>

namespace ebbline::verdict {

struct Reference {
    double avoidable_share = 0; ///< of the loss: 1 - resistance it should have / has
    Basis basis = Basis::Estimate;
    std::string remedy; ///< an order: "Remake the joint ..."
};

/// For joints, contacts, fuses, breakers and batteries. `now_ohm`: what a joint has at that moment.
[[nodiscard]] Reference findReference(const Facts& facts, const Element& element, double now_ohm);

/// For conductors: the size that keeps the chosen drop limit (3 % where none is chosen) at running
/// current; where the conductor has it and the fridge does not start clear, the next thicker.
[[nodiscard]] Reference findSizeReference(const Facts& facts,
                                          const Conductor& conductor,
                                          const Element& element,
                                          double amps);

} // namespace ebbline::verdict
