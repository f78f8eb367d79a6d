// SPDX-License-Identifier: MIT
// What a switch, fuse or breaker of the drawing is like at a moment of the start.
#include "part_state.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

const Element* findElement(const Network& network, const std::string& name) {
    const auto place = std::ranges::find(network.elements, name, &Element::name);
    return place == network.elements.end() ? nullptr : &*place;
}

class State {
public:
    State(const Moment& moment, std::string id)
        : m_network(moment.examination().network), m_moment(moment), m_id(std::move(id)) {}

    void operator()(Isolator& isolator) const { isolator.closed = isClosed(m_id, isolator.closed); }
    void operator()(Thermostat& thermostat) const {
        thermostat.closed = isClosed(m_id, thermostat.closed);
    }
    void operator()(Panel& panel) const {
        for (std::size_t i = 0; i < panel.ways.size(); ++i)
            panel.ways[i].closed =
                isClosed(m_id + "." + std::to_string(i + 1), panel.ways[i].closed);
    }
    void operator()(Fuse& fuse) const { fuse.blown = fuse.blown || hasOpened(); }
    void operator()(Breaker& breaker) const { breaker.tripped = breaker.tripped || hasOpened(); }
    template <class Other>
    void operator()(Other& /*unused*/) const {}

private:
    [[nodiscard]] bool isClosed(const std::string& element, bool otherwise) const {
        const Element* found = findElement(m_network, element);
        if (found == nullptr)
            return otherwise;
        bool closed = found->closed;
        for (const auto& [at_s, is_closed] : found->switchings)
            if (at_s <= m_moment.at_s)
                closed = is_closed;
        return closed;
    }

    /// The verdict names the one that opens.
    [[nodiscard]] bool hasOpened() const {
        return m_moment.inquiry.headline.element == m_id &&
               std::ranges::any_of(
                   m_moment.examination().start.events, [&](const StartEvent& event) {
                       return event.what == Happening::FuseOpens && event.at_s <= m_moment.at_s;
                   });
    }

    const Network& m_network;
    const Moment& m_moment;
    std::string m_id;
};

} // namespace

Part partAt(const Moment& moment, const Part& part) {
    Part then = part;
    std::visit(State(moment, part.id), then.body);
    return then;
}

} // namespace ebbline::drawing
