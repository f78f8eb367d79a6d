// SPDX-License-Identifier: MIT
// Which moment of a start is shown while it is played.
#include "ebbline/player.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ebbline {
namespace {

constexpr double stretched_s = 8; // all moments together
constexpr double slow_factor = 0.1;
constexpr double fast_factor = 12; // a wait of a minute in five seconds
constexpr double event_stands_s = 1.5;

} // namespace

void Player::show(Timeline timeline) {
    m_timeline = std::move(timeline);
    if (m_loop && m_loop->to_s > m_timeline.horizon_s)
        m_loop = std::nullopt;
    m_at_s = std::clamp(m_at_s, beginning(), m_timeline.horizon_s);
}

void Player::play() {
    if (m_at_s >= end()) {
        m_at_s = beginning();
        m_was_at_worst = false;
    }
    m_is_playing = true;
}

void Player::toggle() {
    if (m_is_playing)
        pause();
    else
        play();
}

void Player::advance(double seconds) {
    if (!m_is_playing)
        return;
    if (m_pace == Pace::Events && !m_loop) {
        goFromEventToEvent(seconds);
        return;
    }
    const double from_s = m_at_s;
    m_at_s = after(seconds);
    const bool comes_by = from_s < m_timeline.worst_s && m_at_s >= m_timeline.worst_s;
    if (comes_by && !m_loop && m_pace != Pace::Fast) {
        seekWorst();
        m_is_playing = false;
    } else if (m_at_s >= end()) {
        m_at_s = m_loop ? beginning() : std::max(from_s, end());
        m_is_playing = m_loop.has_value();
    }
}

void Player::seek(double at_s) {
    m_at_s = std::clamp(at_s, m_timeline.moments_s.front(), m_timeline.horizon_s);
    m_was_at_worst = m_was_at_worst || m_at_s == m_timeline.worst_s;
}

void Player::step(int direction) {
    const auto& moments = m_timeline.moments_s;
    const auto next = direction > 0 ? std::ranges::upper_bound(moments, m_at_s)
                                    : std::ranges::lower_bound(moments, m_at_s);
    m_is_playing = false;
    if (direction > 0 && next != moments.end())
        seek(*next);
    else if (direction < 0 && next != moments.begin())
        seek(*std::prev(next));
}

bool Player::stepEvent(int direction) {
    const auto& events = m_timeline.events_s;
    const auto next = direction > 0 ? std::ranges::upper_bound(events, m_at_s)
                                    : std::ranges::lower_bound(events, m_at_s);
    m_is_playing = false;
    if (direction > 0 ? next == events.end() : next == events.begin())
        return false;
    seek(direction > 0 ? *next : *std::prev(next));
    return true;
}

/// Each stands long enough to be looked at; the worst moment is one of them.
void Player::goFromEventToEvent(double seconds) {
    m_waited_s += seconds;
    if (m_waited_s < event_stands_s)
        return;
    m_waited_s = 0;
    const double from_s = m_at_s;
    const bool goes_on = stepEvent(1);
    if (from_s < m_timeline.worst_s && (!goes_on || m_at_s >= m_timeline.worst_s))
        seekWorst();
    else
        m_is_playing = goes_on;
}

void Player::mark(std::optional<Stretch> loop) {
    m_loop = loop && loop->to_s > loop->from_s ? loop : std::nullopt;
}

void Player::markBeginning() {
    mark(Stretch{m_at_s, m_loop ? std::max(m_loop->to_s, m_at_s) : end()});
}

void Player::markEnd() {
    mark(Stretch{m_loop ? std::min(m_loop->from_s, m_at_s) : beginning(), m_at_s});
}

double Player::beginning() const {
    return m_loop ? m_loop->from_s : m_timeline.moments_s.front();
}

/// Stretched and slow show the attempt; as in life and faster go on to the retries.
double Player::end() const {
    if (m_loop)
        return m_loop->to_s;
    const bool is_whole = m_pace != Pace::Stretched && m_pace != Pace::Slow;
    return is_whole ? m_timeline.horizon_s : m_timeline.moments_s.back();
}

double Player::after(double seconds) const {
    switch (m_pace) {
    case Pace::Stretched:
        return stretched(seconds);
    case Pace::Slow:
        return m_at_s + slow_factor * seconds;
    case Pace::Life:
        return m_at_s + seconds;
    case Pace::Fast:
        return m_at_s + fast_factor * seconds;
    case Pace::Events: // a marked stretch has none to stand at
        return stretched(seconds);
    }
    return m_at_s;
}

/// Every gap between two moments takes equally long.
double Player::stretched(double seconds) const {
    const auto& moments = m_timeline.moments_s;
    const double gaps = static_cast<double>(moments.size() - 1);
    const auto next = std::ranges::upper_bound(moments, m_at_s);
    if (next == moments.begin() || next == moments.end())
        return m_at_s + seconds; // before or behind all of them
    const auto i = static_cast<std::size_t>(next - moments.begin());
    const double within = (m_at_s - moments[i - 1]) / (moments[i] - moments[i - 1]);
    const double place = static_cast<double>(i - 1) + within + gaps * seconds / stretched_s;
    if (place >= gaps)
        return moments.back();
    const auto before = static_cast<std::size_t>(place);
    return std::lerp(moments[before], moments[before + 1], place - std::floor(place));
}

} // namespace ebbline
