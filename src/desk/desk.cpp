// SPDX-License-Identifier: MIT
// The open installation: handles, live starts, the cursor.
#include "ebbline/desk.h"

#include "paper.h"

#include "ebbline/instants.h"

#include <algorithm>
#include <utility>

namespace ebbline {
namespace {

constexpr std::size_t moments = 240;
// Turns of one handle that follow each other faster than this are one change.
constexpr double gesture_s = 1.5;
constexpr double notice_stands_s = 10;

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

std::shared_ptr<const Shown> shownOf(study::LiveAnswer answer, const Models& models) {
    auto& examination = std::get<Examination>(answer.found);
    const Installation installation = examination.network.installation;
    return std::make_shared<Shown>(
        study::judge(std::move(examination), std::move(answer.remedies), installation, models, {}),
        answer.edit,
        answer.is_whole);
}

} // namespace

Desk::Desk(Models models, engine::PoolSettings settings)
    : m_models(std::move(models)), m_builtin(m_models.catalogues), m_settings(std::move(settings)),
      m_paper(std::make_unique<desk::PaperWriter>()) {}

Desk::~Desk() = default;

void Desk::open(Document document) {
    m_lesson = std::nullopt;
    show(std::move(document));
    m_base = m_drawn;
    m_handles = desk::findHandles(m_base, m_models.catalogues);
    ask();
}

void Desk::welcome(Document document) {
    open(std::move(document));
    m_welcome = Welcome::OneHandle;
}

void Desk::open(LessonFile lesson) {
    show(std::move(lesson.document));
    m_lesson = std::move(lesson.lesson);
    m_step = 0;
    enterStep();
}

void Desk::show(Document document) {
    m_document = std::make_unique<Document>(std::move(document));
    m_file.clear();
    m_live.reset(); // it reads the models
    m_models.catalogues = m_document->catalogues;
    m_live = std::make_unique<study::Live>(m_models, m_settings);
    m_drawn = installation::apply(m_document->installation,
                                  installation::faultChanges(m_document->installation));
    m_now = nullptr;
    m_before = nullptr;
    m_turned = std::nullopt;
    const Pace pace = m_player.pace();
    m_player = {};
    m_player.setPace(pace);
    m_welcome = Welcome::Over;
    m_leads = std::nullopt;
    m_magnifier.fit();
    m_revealed = Reveal::Everything;
    m_is_arriving = true;
}

void Desk::goOn(int direction) {
    const bool is_end =
        !m_lesson || (direction > 0 ? m_step + 1 >= m_lesson->steps.size() : m_step == 0);
    if (is_end)
        return;
    m_step = direction > 0 ? m_step + 1 : m_step - 1;
    m_before = m_now;
    enterStep();
}

void Desk::enterStep() {
    const LessonStep& step = m_lesson->steps[m_step];
    m_base = installation::apply(m_drawn, step.changes);
    m_handles = desk::findHandles(m_base, m_models.catalogues);
    m_turned = std::nullopt;
    m_is_answered = false;
    m_revealed = step.hides ? Reveal::Nothing : Reveal::Everything;
    m_hands = std::nullopt;
    m_is_arriving = true;
    ask();
}

/// Where a document or a step begins.
void Desk::arrive() {
    m_is_arriving = false;
    m_player.pause();
    if (m_lesson && m_lesson->steps[m_step].plays) {
        m_player.seek(m_player.timeline().moments_s.front());
        m_player.play();
    } else if (m_lesson && m_lesson->steps[m_step].at_s) {
        m_player.seek(*m_lesson->steps[m_step].at_s);
    } else {
        m_player.seekWorst();
    }
}

void Desk::turn(HandleKind kind, int direction) {
    const auto handle = std::ranges::find(m_handles, kind, &Handle::kind);
    const bool is_shown = m_revealed == Reveal::Everything &&
                          (m_welcome != Welcome::OneHandle || kind == HandleKind::Area);
    if (!is_shown || handle == m_handles.end() || !handle->turn(direction))
        return;
    if (kind != HandleKind::Area)
        m_welcome = Welcome::Over;
    keepBefore(kind);
    ask();
}

void Desk::putBack() {
    if (std::ranges::none_of(m_handles, &Handle::isTurned))
        return;
    for (Handle& handle : m_handles)
        handle.at = handle.drawn;
    m_before = m_now;
    m_turned = std::nullopt;
    ask();
}

void Desk::hide(bool is_hidden) {
    m_revealed = is_hidden ? Reveal::Nothing : Reveal::Everything;
    m_leads = std::nullopt;
    m_magnifier.fit();
    m_hands = std::nullopt;
    m_player.seek(m_player.timeline().moments_s.front());
    m_player.pause();
}

void Desk::reveal() {
    if (m_welcome == Welcome::Started)
        m_welcome = Welcome::Over;
    if (m_revealed == Reveal::Everything) {
        m_is_answered = m_lesson.has_value();
        return;
    }
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

void Desk::setNotice(std::string text) {
    m_notice = std::move(text);
    m_since_notice_s = 0;
}

/// Its first line; what follows is a log.
void Desk::setObstacle(const std::string& text) {
    m_obstacle = text.substr(0, text.find('\n'));
}

void Desk::ask() {
    m_installation = installation::apply(m_base, desk::changesOf(m_handles));
    m_obstacle.clear();
    m_live->ask(++m_edit, m_installation);
}

bool Desk::advance(double seconds) {
    m_since_turn_s += seconds;
    m_since_look_s += seconds;
    reread();
    const double at_s = m_player.at();
    m_player.advance(seconds);
    auto answer = m_live ? m_live->take() : std::nullopt;
    const Shown* was_under = m_under ? m_under->shown.get() : nullptr;
    takeUnder();
    const bool has_notice = !m_notice.empty();
    m_since_notice_s += seconds;
    if (m_since_notice_s > notice_stands_s)
        m_notice.clear();
    if (auto written = m_paper->take())
        setNotice(std::move(*written));
    const bool is_new = answer || has_notice != !m_notice.empty() ||
                        (m_under ? m_under->shown.get() : nullptr) != was_under;
    if (answer)
        take(std::move(*answer));
    return is_new || m_player.at() != at_s;
}

void Desk::take(study::LiveAnswer answer) {
    if (const auto* reason = std::get_if<std::string>(&answer.found)) {
        if (answer.edit == m_edit)
            setObstacle(*reason);
        return;
    }
    m_obstacle.clear();
    auto shown = shownOf(std::move(answer), m_models);
    // A final run has its worst moment elsewhere than its draft.
    const bool stood_at_worst = m_player.at() == m_player.timeline().worst_s;
    m_player.show(timelineOf(shown->inquiry));
    if (stood_at_worst)
        m_player.seekWorst();
    m_now = std::move(shown);
    if (m_welcome != Welcome::Over)
        m_welcome = m_now->inquiry.examination.start.outcome == Outcome::Starts
                        ? Welcome::Started
                        : Welcome::OneHandle;
    if (m_is_arriving)
        arrive();
}

void Desk::takeUnder() {
    auto answer = m_under && m_under->live ? m_under->live->take() : std::nullopt;
    if (!answer)
        return;
    if (const auto* reason = std::get_if<std::string>(&answer->found)) {
        setObstacle(*reason);
        m_under = nullptr;
        return;
    }
    m_under->shown = shownOf(std::move(*answer), m_under->models);
    if (m_under->shown->inquiry.examination.accuracy == Accuracy::Final)
        m_under->live = nullptr;
}

std::optional<Outline> Desk::under() const {
    if (!m_under || !m_under->shown)
        return std::nullopt;
    return Outline{&m_under->shown->inquiry, m_player.at(), m_under->name};
}

void Desk::toggleMeter() {
    if (m_leads || m_revealed != Reveal::Everything)
        m_leads = std::nullopt;
    else
        m_leads = desk::leadsAtFridge(m_installation);
}

void Desk::putLead(const Terminal& terminal) {
    if (!m_leads)
        return;
    m_leads->inHand() = terminal;
    m_leads->holds_minus = !m_leads->holds_minus;
}

void Desk::dismiss() {
    if (m_cover != Cover::None)
        m_cover = Cover::None;
    else if (m_magnifier.isOn())
        m_magnifier.fit();
    else if (m_player.loop())
        m_player.mark(std::nullopt);
    else if (m_leads)
        m_leads = std::nullopt;
    else if (m_under)
        m_under = nullptr;
    else if (m_before)
        m_before = nullptr;
    else
        m_welcome = Welcome::Over;
}

} // namespace ebbline
