// SPDX-License-Identifier: MIT
// What an electrician asks of a drawn installation, answered by its graph alone.
#pragma once

#include "ebbline/network.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline {

/// Nodes that hang together by wiring or through what is connected to it. Meters join nothing.
struct Island {
    std::vector<int> nodes; ///< node indices, ascending
    bool holds_fridge = false;
    bool holds_source = false; ///< a battery or a charger
    bool operator==(const Island&) const = default;
};

/// Two or more ways between the same nodes: current shares itself among them. A single way of
/// several elements in a row is none.
struct ParallelWays {
    std::vector<int> elements; ///< ascending
    std::vector<int> nodes;    ///< where it meets the rest, ascending
    bool operator==(const ParallelWays&) const = default;
};

/// What one fuse or breaker protects: everything that no source's plus reaches but through it.
struct Protection {
    int element = 0;
    std::optional<double> rating_a;
    std::vector<int> protects;   ///< ascending; the fuse itself is not among them
    std::optional<int> thinnest; ///< of the conductors among them
    std::vector<int> feeds;      ///< consumers whose plus lies behind it
    bool operator==(const Protection&) const = default;
};

/// A conductor that a source's plus reaches past every fuse and breaker.
struct Unfused {
    int element = 0;
    int source = 0; ///< one that reaches it; a battery before a charger
    bool operator==(const Unfused&) const = default;
};

/// Another consumer whose current may flow through the fridge's feed or return.
struct Sharing {
    int consumer = 0;
    std::vector<int> out; ///< elements of the fridge's supply loop, in its order
    std::vector<int> back;
    bool operator==(const Sharing&) const = default;
};

enum class OpenKind {
    BareTerminal, ///< nothing is connected to it
    DeadEnd,      ///< one conductor arrives and leads no further
    Joint,        ///< taken off, or fallen off
    Contact,      ///< switched off, and no event closes it
    Plug,         ///< not mated
    Fuse,         ///< blown
    Breaker,      ///< tripped
};
/// "bare terminal", "dead end", ... as in JSON.
[[nodiscard]] std::string_view nameOf(OpenKind kind);

/// Where the wiring stops.
struct OpenEnd {
    OpenKind kind = OpenKind::DeadEnd;
    std::string name; ///< of the terminal or the element
    bool operator==(const OpenEnd&) const = default;
};

/// A consumer or source that lies on the wrong side.
struct Misplaced {
    int element = 0;
    bool plus_on_minus = false; ///< its plus is reached from minus posts only
    bool minus_on_plus = false; ///< its minus is reached from plus posts only
    bool operator==(const Misplaced&) const = default;
};

/// All answers. Indices are those of the network's elements and nodes, lists ascending where
/// nothing else is said. Islands, loop, parallel ways, bridges, sharing and polarity are of the
/// installation as it stands: a contact, joint or fuse that is open and that no event closes is no
/// way. Protection is of the installation as drawn, everything closed, because a cable must be
/// protected once the switch is on.
struct Survey {
    std::vector<Island> islands; ///< by their first node
    /// The battery of least resistance that feeds the fridge, else the charger. One source only:
    /// batteries in a row are not followed.
    std::optional<SupplyLoop> loop;
    /// Without a loop: what is open along the loop as drawn; empty when none is drawn.
    std::vector<int> interruptions;
    std::vector<ParallelWays> parallels; ///< by their first element
    std::vector<int> bridges;            ///< elements whose loss alone takes the supply away
    std::vector<Protection> protections; ///< one per fuse and breaker
    std::vector<Unfused> unfused;
    /// Conductors behind fuses or breakers on every way, but not the same on all of them.
    std::vector<int> behind_several;
    std::vector<Sharing> sharings;
    std::vector<OpenEnd> open_ends;
    std::vector<Misplaced> misplaced;
    std::vector<int> shorted;        ///< sources whose posts are joined by wiring alone
    std::optional<bool> call_closed; ///< the thermostat's loop; absent: nothing is wired to it
    bool operator==(const Survey&) const = default;
};

namespace network {

/// Answers all of it from the network as built, nothing merged. In elements of sources `from` is
/// minus and `to` is plus, in those of consumers `from` is plus.
[[nodiscard]] Survey survey(const Network& network);

} // namespace network
} // namespace ebbline
