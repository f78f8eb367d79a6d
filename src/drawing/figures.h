// SPDX-License-Identifier: MIT
// The numbers behind the pictures: the supply loop at one moment, and what could be saved in it.
#pragma once

#include "ebbline/drawing.h"

#include <string>
#include <vector>

namespace ebbline::drawing {

/// One element of the supply loop at the moment.
struct Station {
    int element = 0;
    Side side = Side::Out;
    double volts = 0; ///< lost in it, in the sense of the loop
    double amps = 0;
    double avoidable_v = 0; ///< of these; what a sound one would not lose
};

/// The supply loop at one moment. All figures of a picture come from one of these, so that they
/// agree with each other.
struct Figures {
    const Network* network = nullptr;
    double at_s = 0;
    double source_v = 0;
    double amps = 0; ///< in the controller's supply
    double cut_out_v = 0;
    bool reversed = false;        ///< plus and minus are exchanged on the way
    std::string opening;          ///< id of the fuse or breaker that ends the start, if one does
    std::vector<Station> battery; ///< one, or none without a loop
    std::vector<Station> out;     ///< battery plus -> fridge
    std::vector<Station> back;    ///< battery minus -> fridge: from the battery on as well

    [[nodiscard]] bool hasLoop() const { return !battery.empty(); }
    [[nodiscard]] double outLoss() const;
    [[nodiscard]] double backLoss() const;
    [[nodiscard]] double lost() const;
    /// Volts that arrive at the controller, in the sense of the loop.
    [[nodiscard]] double arriving() const { return source_v - lost(); }
    [[nodiscard]] double spare() const { return arriving() - cut_out_v; }
    [[nodiscard]] const Element& elementOf(const Station& station) const;
};

/// At scene time `at_s` of the start itself or of its held-off twin.
[[nodiscard]] Figures figuresAt(const Moment& moment, const Start& start, double at_s);

enum class PortionKind { Battery, Cable, Joint, Device, Rest };

/// What is lost in one thing that has a name.
struct Portion {
    PortionKind kind = PortionKind::Device;
    std::string id;   ///< in the scene: of a run, a joint or a part
    std::string name; ///< for people, without figures: "1.5 mm² cable, 9.1 m"
    double volts = 0;
    double avoidable_v = 0;
};

/// By thing, largest loss first; what is small and sound, or lifted by a charging source, comes
/// last in one.
[[nodiscard]] std::vector<Portion> findPortions(const Figures& figures);
/// The fuse that ends the start; else the largest avoidable one; of nothing avoidable the largest
/// of the wiring.
[[nodiscard]] const Portion* findCulprit(const Figures& figures,
                                         const std::vector<Portion>& portions);

} // namespace ebbline::drawing
