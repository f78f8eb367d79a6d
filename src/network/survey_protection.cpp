// SPDX-License-Identifier: MIT
// What each fuse and breaker protects, and what none does.
#include "survey_steps.h"

#include <deque>

namespace ebbline::network {
namespace {

constexpr int none = -1;

std::optional<double> ratingOf(const Installation& installation, const std::string& id) {
    const Part* part = installation.findPart(id);
    if (part == nullptr)
        return std::nullopt;
    if (const auto* fuse = std::get_if<Fuse>(&part->body))
        return fuse->rating_a;
    if (const auto* breaker = std::get_if<Breaker>(&part->body))
        return breaker->rating_a;
    if (const auto* leads = std::get_if<BenchLeads>(&part->body))
        return leads->rating_a;
    return std::nullopt;
}

/// The wiring as drawn, seen from all plus posts at once. A fuse lies on every way to what is
/// beyond it exactly if it is the only member of its block.
class Guard {
public:
    explicit Guard(const Surveyed& surveyed)
        : m_surveyed(surveyed), m_wiring(surveyed.network, Reading::AsDrawn),
          m_hub(m_wiring.addHub(plusPosts(surveyed))), m_blocks(m_wiring, m_hub),
          m_last_fuse(static_cast<std::size_t>(m_wiring.nodes()), none) {
        for (const int node : m_blocks.order())
            if (const int block = m_blocks.blockAbove(node); block >= 0 && isReached(node))
                at(m_last_fuse, node) = isGuarding(block) ? at(m_blocks.members(), block).front()
                                                          : at(m_last_fuse, m_blocks.headOf(block));
    }

    [[nodiscard]] bool isReached(int node) const { return m_blocks.areJoined(m_hub, node); }

    /// The last fuse on the way to a node; `none` when there is none on every way.
    [[nodiscard]] int lastFuse(int node) const { return at(m_last_fuse, node); }
    /// The last fuse before an element.
    [[nodiscard]] int fuseBefore(int element) const {
        const int block = m_blocks.blockOf(element);
        return block < 0 ? none : lastFuse(m_blocks.headOf(block));
    }

private:
    static std::vector<int> plusPosts(const Surveyed& surveyed) {
        std::vector<int> posts;
        posts.reserve(surveyed.sources.size());
        for (const int source : surveyed.sources)
            posts.push_back(plusOf(surveyed.element(source)));
        return posts;
    }

    [[nodiscard]] bool isGuarding(int block) const {
        const int first = at(m_blocks.members(), block).front();
        return m_blocks.isSingle(block) &&
               first < static_cast<int>(m_surveyed.network.elements.size()) &&
               isFuse(m_surveyed.element(first).kind);
    }

    const Surveyed& m_surveyed;
    Wiring m_wiring;
    int m_hub;
    Blocks m_blocks;
    std::vector<int> m_last_fuse;
};

/// Which source reaches each node past no fuse; `none` where none does.
std::vector<int> findUnfusedNodes(const Surveyed& surveyed) {
    const Wiring wiring(surveyed.network, Reading::AsDrawn);
    std::vector<int> reached_by(surveyed.network.nodes.size(), none);
    for (const int source : surveyed.sources) {
        std::deque<int> edge{plusOf(surveyed.element(source))};
        while (!edge.empty()) {
            const int node = edge.front();
            edge.pop_front();
            if (at(reached_by, node) != none)
                continue;
            at(reached_by, node) = source;
            for (const Hop& hop : wiring.hopsAt(node))
                if (!isFuse(surveyed.element(hop.element).kind))
                    edge.push_back(hop.node);
        }
    }
    return reached_by;
}

class Protections {
public:
    explicit Protections(const Surveyed& surveyed)
        : m_surveyed(surveyed), m_guard(surveyed), m_place(surveyed.network.elements.size()) {
        for (const int fuse : findElements(surveyed.network, isFuse)) {
            at(m_place, fuse) = m_found.size();
            const std::string& part = surveyed.element(fuse).part;
            m_found.push_back(
                {.element = fuse, .rating_a = ratingOf(surveyed.network.installation, part)});
        }
    }

    std::vector<Protection> find() {
        for (std::size_t i = 0; i < m_surveyed.network.elements.size(); ++i)
            if (const int element = static_cast<int>(i);
                isConsumer(m_surveyed.element(element).kind))
                addConsumer(element);
            else
                addProtected(element);
        return std::move(m_found);
    }

    [[nodiscard]] const Guard& guard() const { return m_guard; }

private:
    void addProtected(int element) {
        for (int fuse = m_guard.fuseBefore(element); fuse != none;
             fuse = m_guard.fuseBefore(fuse)) {
            Protection& protection = m_found[at(m_place, fuse)];
            protection.protects.push_back(element);
            if (m_surveyed.element(element).kind == ElementKind::Conductor)
                narrow(protection, element);
        }
    }

    void addConsumer(int consumer) {
        for (int fuse = m_guard.lastFuse(plusOf(m_surveyed.element(consumer))); fuse != none;
             fuse = m_guard.fuseBefore(fuse))
            m_found[at(m_place, fuse)].feeds.push_back(consumer);
    }

    void narrow(Protection& protection, int conductor) const {
        if (!protection.thinnest || m_surveyed.element(conductor).area_mm2 <
                                        m_surveyed.element(*protection.thinnest).area_mm2)
            protection.thinnest = conductor;
    }

    const Surveyed& m_surveyed;
    Guard m_guard;
    std::vector<Protection> m_found;
    std::vector<std::size_t> m_place; ///< of a fuse among them
};

} // namespace

void findProtection(const Surveyed& surveyed, Survey& survey) {
    Protections protections(surveyed);
    survey.protections = protections.find();
    const std::vector<int> reached_by = findUnfusedNodes(surveyed);
    for (std::size_t i = 0; i < surveyed.network.elements.size(); ++i) {
        const int index = static_cast<int>(i);
        const Element& element = surveyed.network.elements[i];
        if (element.kind != ElementKind::Conductor)
            continue;
        if (const int source = at(reached_by, element.from); source != none)
            survey.unfused.push_back({index, source});
        else if (protections.guard().isReached(element.from) &&
                 protections.guard().fuseBefore(index) == none)
            survey.behind_several.push_back(index);
    }
}

} // namespace ebbline::network
