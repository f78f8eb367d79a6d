// SPDX-License-Identifier: MIT
// The separate questions of a survey; each fills in its own answers.
#pragma once

#include "survey_blocks.h"

#include "ebbline/survey.h"

namespace ebbline::network {

/// What the questions share: the wiring as it stands, taken apart once.
struct Surveyed {
    explicit Surveyed(const Network& of);

    const Network& network;
    std::vector<bool> open;
    Wiring wiring;
    Blocks blocks;
    std::vector<int> sources; ///< batteries, then chargers
    std::vector<int> consumers;

    [[nodiscard]] const Element& element(int index) const { return at(network.elements, index); }
};

/// Loop, interruptions.
void findLoop(const Surveyed& surveyed, Survey& survey);
/// Islands, parallel ways.
void findPieces(const Surveyed& surveyed, Survey& survey);
/// Bridges and sharing, from the loop.
void findDependence(const Surveyed& surveyed, Survey& survey);
/// Protections, unfused conductors.
void findProtection(const Surveyed& surveyed, Survey& survey);
/// Open ends.
void findOpenEnds(const Surveyed& surveyed, Survey& survey);
/// Polarity, shorted sources, the thermostat's loop.
void findPolarity(const Surveyed& surveyed, Survey& survey);

} // namespace ebbline::network
