// SPDX-License-Identifier: MIT
// Whether what has started also runs as it should.
#include "ebbline/running.h"

#include "events.h"

namespace ebbline::start {

bool isSlow(const Start& start, const Controller& unit) {
    const std::vector<double>& speed = start.waveform.speed;
    return start.outcome == Outcome::Starts && !speed.empty() && speed.back() < runningSpeed(unit);
}

} // namespace ebbline::start
