// SPDX-License-Identifier: MIT
// The whole network at a few hundred instants: always the next one where a straight line is worst.
#include "frames.h"

#include "instant.h"
#include "trace.h"

#include "ebbline/error.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <set>

namespace ebbline::start {
namespace {

constexpr std::size_t most_frames = 400;
constexpr double close_enough_v = 2e-3;
constexpr double volts_per_amp = 0.05; // a small supply loop: what an error in current is worth
constexpr double before_s = 0.3;       // of the scene's time 0; the power is on by then

/// Two kept samples, and the one between them that lies farthest from their straight line.
struct Gap {
    std::size_t first = 0;
    std::size_t last = 0;
    std::size_t worst = 0;
    double error_v = 0;
    bool operator<(const Gap& other) const { return error_v < other.error_v; }
};

class Selection {
public:
    explicit Selection(const Record& record) : m_record(record) {}

    /// Keeps the ends and what is demanded, then the worst samples until all lie close.
    [[nodiscard]] std::set<std::size_t> choose(std::set<std::size_t> kept) const {
        std::priority_queue<Gap> gaps;
        for (auto place = kept.begin(); std::next(place) != kept.end(); ++place)
            gaps.push(measure(*place, *std::next(place)));
        while (!gaps.empty() && kept.size() < most_frames) {
            const Gap gap = gaps.top();
            gaps.pop();
            if (gap.error_v < close_enough_v)
                break;
            kept.insert(gap.worst);
            gaps.push(measure(gap.first, gap.worst));
            gaps.push(measure(gap.worst, gap.last));
        }
        return kept;
    }

private:
    [[nodiscard]] Gap measure(std::size_t first, std::size_t last) const {
        Gap gap{.first = first, .last = last};
        for (std::size_t i = first + 1; i < last; ++i) {
            const double error_v = off(m_record.volts(), first, last, i) +
                                   volts_per_amp * off(m_record.amps(), first, last, i);
            if (error_v > gap.error_v) {
                gap.error_v = error_v;
                gap.worst = i;
            }
        }
        return gap;
    }

    [[nodiscard]] double
    off(std::span<const double> values, std::size_t first, std::size_t last, std::size_t i) const {
        const auto time_s = m_record.time();
        const double share = (time_s[i] - time_s[first]) / (time_s[last] - time_s[first]);
        return std::abs(values[first] + share * (values[last] - values[first]) - values[i]);
    }

    const Record& m_record;
};

/// What is part of the wiring loses volts; anything else has them across it.
bool isWiring(const Element& element) {
    switch (element.kind) {
    case ElementKind::Conductor:
    case ElementKind::Joint:
    case ElementKind::Contact:
    case ElementKind::Fuse:
    case ElementKind::Breaker:
        return true;
    default:
        return false;
    }
}

double voltsOf(const Instant& now, int index) {
    const Element& element = now.element(index);
    if (element.kind == ElementKind::Battery)
        return now.inside(index);
    return isWiring(element) ? now.loss(index) : now.voltage(index);
}

/// Within a branch from one member to the next; each begins where it does or where one before
/// ended.
void followBranch(const Instant& now, const Branch& branch, std::vector<double>& potentials) {
    std::set<int> known{branch.from};
    const auto at = [&](int node) -> double& { return potentials[static_cast<std::size_t>(node)]; };
    at(branch.from) = now.at(now.probe(branch.members.front().element).from);
    for (const Member& member : branch.members) {
        const Element& element = now.element(member.element);
        const bool is_along = known.contains(element.from);
        const double lost_v = now.loss(member.element);
        if (is_along)
            at(element.to) = at(element.from) - lost_v;
        else
            at(element.from) = at(element.to) + lost_v;
        known.insert(is_along ? element.to : element.from);
    }
    at(branch.to) = now.at(now.probe(branch.members.front().element).to);
}

std::vector<double> readPotentials(const Instant& now, const Network& network) {
    std::vector<double> potentials(network.nodes.size(), 0);
    for (const Branch& branch : network.branches)
        followBranch(now, branch, potentials);
    for (int i = 0; i < static_cast<int>(network.elements.size()); ++i) {
        const Element& element = now.element(i);
        if (element.linear)
            continue;
        potentials[static_cast<std::size_t>(element.from)] = now.at(now.probe(i).from);
        potentials[static_cast<std::size_t>(element.to)] = now.at(now.probe(i).to);
    }
    return potentials;
}

Frame readFrame(const Record& record, std::size_t index) {
    const Network& network = record.netlist().network;
    const Instant now(record.solved(), record.netlist(), index);
    Frame frame{.at_s = record.time()[index], .controller_v = record.volts()[index]};
    if (network.loop)
        frame.source_v = now.at(now.probe(network.loop->battery).source_v);
    for (int i = 0; i < static_cast<int>(network.elements.size()); ++i) {
        frame.volts.push_back(voltsOf(now, i));
        frame.amps.push_back(now.current(i));
    }
    frame.potentials = readPotentials(now, network);
    return frame;
}

double mix(double one, double other, double share) {
    return one + share * (other - one);
}

} // namespace

std::vector<Frame> readFrames(const Record& record, const Start& start) {
    const auto time_s = record.time();
    const Range range = samplesIn(time_s, -before_s, record.end());
    if (range.first >= range.last)
        return {};
    std::set<std::size_t> kept{range.first, range.last - 1};
    if (start.lowest_at_s)
        kept.insert(samplesIn(time_s, *start.lowest_at_s, record.end()).first);
    std::vector<Frame> frames;
    for (const std::size_t index : Selection(record).choose(std::move(kept)))
        frames.push_back(readFrame(record, index));
    return frames;
}

Frame frameAt(const Start& start, double at_s) {
    const std::vector<Frame>& frames = start.frames;
    EBBLINE_ASSERT(!frames.empty(), "a start that was read has frames");
    const auto after = std::ranges::lower_bound(frames, at_s, {}, &Frame::at_s);
    if (after == frames.begin())
        return frames.front();
    if (after == frames.end())
        return frames.back();
    const Frame& before = *std::prev(after);
    const double share = (at_s - before.at_s) / (after->at_s - before.at_s);
    Frame frame = before;
    frame.at_s = at_s;
    frame.source_v = mix(before.source_v, after->source_v, share);
    frame.controller_v = mix(before.controller_v, after->controller_v, share);
    for (std::size_t i = 0; i < frame.volts.size(); ++i) {
        frame.volts[i] = mix(before.volts[i], after->volts[i], share);
        frame.amps[i] = mix(before.amps[i], after->amps[i], share);
    }
    for (std::size_t i = 0; i < frame.potentials.size(); ++i)
        frame.potentials[i] = mix(before.potentials[i], after->potentials[i], share);
    return frame;
}

} // namespace ebbline::start
