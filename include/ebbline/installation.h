// SPDX-License-Identifier: MIT
// What was drawn as one value, and the one type by which anything in it is made different.
#pragma once

#include "ebbline/keys.h"
#include "ebbline/parts.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace ebbline {

/// One key set to a value.
struct Set {
    std::string path; ///< id[.core][.end].key, panel.way.key, group word.key, or surroundings.key
    Value value;
    bool operator==(const Set&) const = default;
};
/// A joint taken off: "twin.1.from".
struct Open {
    std::string joint;
    bool operator==(const Open&) const = default;
};
/// A short thick lead from one terminal to another; becomes a run called bridge-1, bridge-2 ...
struct Bridge {
    Terminal from;
    Terminal to;
    bool operator==(const Bridge&) const = default;
};
/// A part or run more.
struct Place {
    std::variant<Part, Run> what;
    bool operator==(const Place&) const = default;
};
/// A part or run less. Nothing that stays may name it.
struct Remove {
    std::string id;
    bool operator==(const Remove&) const = default;
};
/// "the drawn thing, but with this different": all that conditions, faults, events, set-ups,
/// variants, sliders and remedies say.
using Change = std::variant<Set, Open, Bridge, Place, Remove>;

/// Changes of state with a time.
struct Event {
    double at_s = 0;
    std::vector<Set> set;
    bool operator==(const Event&) const = default;
};

/// Changes with a name. A condition changes quality and state, a variant what is drawn, a set-up
/// state and wiring (a test by hand).
struct ChangeSet {
    std::string id;
    std::string name;
    std::vector<Change> changes;
    bool operator==(const ChangeSet&) const = default;
};

/// Something wrong with one part, run or joint; never an edit of it.
struct Fault {
    std::string on;       ///< part, run or joint by its path
    std::string kind;     ///< entry of the faults catalogue
    std::vector<Set> set; ///< what the catalogue says of the kind, then what the scene says
    bool operator==(const Fault&) const = default;
};

/// One number that is not known for sure.
struct Spread {
    std::string on; ///< path of a number
    std::string
        law; ///< normal (mean, deviation) | log-normal (median, sigma) | uniform (low, high)
    double first = 0;
    double second = 0;
    bool operator==(const Spread&) const = default;
};

struct Surroundings {
    double ambient_c = 20;
    bool operator==(const Surroundings&) const = default;
};

/// A picture under the plan.
struct Picture {
    std::string file; ///< below the scene's folder
    Position at_m;    ///< its lower left corner
    double width_m = 1;
    bool operator==(const Picture&) const = default;
};

struct Plan {
    std::vector<Position> outline_m;
    std::optional<Picture> picture;
    bool operator==(const Plan&) const = default;
};

/// Where a cable may be laid.
struct Way {
    std::string id;
    std::string name;
    std::vector<Position> line_m;
    std::optional<double> ambient_c; ///< absent: as the surroundings
    bool operator==(const Way&) const = default;
};

/// Where none may.
struct KeepOut {
    std::string id;
    std::string name;
    std::vector<Position> outline_m;
    bool operator==(const KeepOut&) const = default;
};

/// The whole drawn installation.
struct Installation {
    std::string title;
    std::string note;
    double nominal_v = 12;
    std::string rules;            ///< rule set by name, may be empty
    std::string subject;          ///< id of the controller that is judged
    std::vector<std::string> use; ///< further catalogues, below the scene's folder
    Plan plan;
    Surroundings surroundings;
    std::vector<Part> parts;
    std::vector<Run> runs;
    std::vector<ChangeSet> conditions;
    std::vector<ChangeSet> variants;
    std::vector<ChangeSet> setups;
    std::vector<Fault> faults;
    std::vector<Event> events; ///< sorted by time
    std::vector<Spread> spreads;
    std::vector<Way> ways;
    std::vector<KeepOut> keep_outs;
    bool operator==(const Installation&) const = default;

    [[nodiscard]] const Part* findPart(std::string_view id) const;
    [[nodiscard]] const Run* findRun(std::string_view id) const;
    /// A condition, variant or set-up.
    [[nodiscard]] const ChangeSet* findChangeSet(std::string_view id) const;
};

namespace installation {

/// The key that a path names. Throws SceneError (without a place) for an unknown owner or key, and
/// for a key of a whole run that is asked of one core.
[[nodiscard]] const Key& findTarget(const Installation& installation, const std::string& path);

/// The kind under which the list of keys holds an owner's keys ("battery", "joint", "run", ...);
/// nothing when nobody has that name.
[[nodiscard]] std::optional<std::string> findKind(const Installation& installation,
                                                  const std::string& owner);

/// The installation with every change made, in order. Throws SceneError (without a place) that
/// names the path for an unknown part, joint or key, a value that does not fit, an id that is
/// taken, a terminal that is not there, or something to be removed that others name.
[[nodiscard]] Installation apply(Installation installation, std::span<const Change> changes);

/// What the installation's own faults change.
[[nodiscard]] std::vector<Change> faultChanges(const Installation& installation);

} // namespace installation
} // namespace ebbline
