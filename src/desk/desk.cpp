// SPDX-License-Identifier: MIT
// The open installation: handles, live starts, the cursor.
#include "ebbline/desk.h"

#include "ebbline/instants.h"

#include <algorithm>
#include <utility>

namespace ebbline {
namespace {

constexpr std::size_t moments = 240;
// Turns of one handle that follow each other faster than this are one change.
constexpr double gesture_s = 1.5;

Timeline timelineOf(const Inquiry& inquiry) {
    const Start& start = inquiry.examination.start;
    const double telling_s = drawing::tellingMoment(start);
    const auto instants =
        report::chooseInstants(start, drawing::shownStretch({inquiry, telling_s}), moments);
    Timeline timeline{.moments_s = instants.at_s,
                      .worst_s = instants.at_s[instants.worst],
                      .events_s = {},
                      .horizon_s = std::max(start.horizon_s, instants.at_s.back())};
    timeline.events_s.reserve(start.events.size());
    for (const StartEvent& event : start.events)
        timeline.events_s.push_back(event.at_s);
    std::ranges::sort(timeline.events_s);
    return timeline;
}

} // namespace

Desk::Desk(Models models, engine::PoolSettings settings)
    : m_models(std::move(models)), m_settings(std::move(settings)) {}

void Desk::open(Document document) {
    m_document = std::make_unique<Document>(std::move(document));
    m_live.reset(); // it reads the models
    m_models.catalogues = m_document->catalogues;
    m_live = std::make_unique<study::Live>(m_models, m_settings);
    m_drawn = installation::apply(m_document->installation,
                                  installation::faultChanges(m_document->installation));
    m_handles = desk::findHandles(m_drawn, m_models.catalogues);
    m_now = nullptr;
    m_before = nullptr;
    m_turned = std::nullopt;
    m_player = {};
    ask();
}

void Desk::turn(HandleKind kind, int direction) {
    const auto handle = std::ranges::find(m_handles, kind, &Handle::kind);
    if (handle == m_handles.end() || !handle->turn(direction))
        return;
    keepBefore(kind);
    ask();
}

void Desk::putBack() {
    for (Handle& handle : m_handles)
        handle.at = handle.drawn;
    m_before = m_now;
    m_turned = std::nullopt;
    ask();
}

void Desk::hide(bool is_hidden) {
    m_revealed = is_hidden ? Reveal::Nothing : Reveal::Everything;
    m_hands = std::nullopt;
    m_player.seek(m_player.timeline().moments_s.front());
    m_player.pause();
}

void Desk::reveal() {
    if (m_revealed == Reveal::Everything)
        return;
    m_revealed = static_cast<Reveal>(static_cast<int>(m_revealed) + 1);
    m_player.seekWorst();
}

/// What stood there when the hand came to the handle.
void Desk::keepBefore(HandleKind kind) {
    const bool goes_on = m_turned == kind && m_since_turn_s < gesture_s;
    if (!goes_on)
        m_before = m_now;
    m_turned = kind;
    m_since_turn_s = 0;
}

void Desk::ask() {
    m_installation = installation::apply(m_drawn, desk::changesOf(m_handles));
    m_obstacle.clear();
    m_live->ask(++m_edit, m_installation);
}

bool Desk::advance(double seconds) {
    m_since_turn_s += seconds;
    const double at_s = m_player.at();
    m_player.advance(seconds);
    auto answer = m_live ? m_live->take() : std::nullopt;
    const bool is_new = answer.has_value();
    if (answer)
        take(std::move(*answer));
    return is_new || m_player.at() != at_s;
}

void Desk::take(study::LiveAnswer answer) {
    if (answer.edit < m_edit && m_now && m_now->edit > answer.edit)
        return;
    if (const auto* reason = std::get_if<std::string>(&answer.found)) {
        m_obstacle = *reason;
        return;
    }
    auto& examination = std::get<Examination>(answer.found);
    const Installation installation = examination.network.installation;
    const bool is_first = m_now == nullptr;
    auto shown = std::make_shared<Shown>(
        study::judge(std::move(examination), {}, installation, m_models, {}), answer.edit);
    m_player.show(timelineOf(shown->inquiry));
    m_now = std::move(shown);
    if (is_first)
        m_player.seekWorst();
}

} // namespace ebbline
