// SPDX-License-Identifier: MIT
// The boxes of a handout as values for its template.
#pragma once

#include "readings.h"
#include "sections.h"

#include "ebbline/models.h"

namespace ebbline::report {

/// What the class sees, numbered.
struct NumberedLoop {
    Network network; ///< of the installation as an eye sees it
    std::vector<MeterPlace> places;
};

/// One row per place: its number and what lies there.
void addPlaces(const NumberedLoop& loop, const Catalogues& catalogues, Fields& page);
/// The same rows and the boxes around them, filled in.
void addReadings(const Inquiry& inquiry,
                 const NumberedLoop& loop,
                 const Catalogues& catalogues,
                 Fields& page);

} // namespace ebbline::report
