// SPDX-License-Identifier: MIT
// Which side of a twin cable its plus core lies on.
#pragma once

#include "plan_layout.h"

#include <set>
#include <string>

namespace ebbline::drawing {

/// Which core is the plus one: in the supply loop the one that leads out, else by its ends.
[[nodiscard]] std::size_t plusCoreOf(const Network& network, const Run& run);

/// Twin cables are settled one after the other, as they are laid.
class TwinSides {
public:
    explicit TwinSides(PlanLayout& layout) : m_layout(layout) {}

    /// The plus core keeps one side of its cable; parts whose poles lie the other way round are
    /// turned over, unless a cable before has been led to them.
    void settle(Trace& trace);

private:
    [[nodiscard]] const Port* findPort(const Terminal& terminal) const;
    [[nodiscard]] int wantedSide(const Trace& trace, bool at_from) const;
    [[nodiscard]] int likedSide(const Trace& trace) const;
    void turnOver(const std::string& part);

    PlanLayout& m_layout;
    std::set<std::string> m_settled; ///< parts whose poles a twin has been led to
};

} // namespace ebbline::drawing
