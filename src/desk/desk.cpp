// SPDX-License-Identifier: MIT
// The open installation: handles, live starts, the cursor.
#include "ebbline/desk.h"

#include "ebbline/error.h"
#include "ebbline/instants.h"

#include <algorithm>
#include <system_error>
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

std::string firstLine(const std::string& text) {
    return text.substr(0, text.find('\n'));
}

} // namespace

Desk::Desk(Models models, engine::PoolSettings settings)
    : m_models(std::move(models)), m_builtin(m_models.catalogues), m_settings(std::move(settings)) {
}

void Desk::open(Document document) {
    m_lesson = std::nullopt;
    show(std::move(document));
    m_base = m_drawn;
    m_handles = desk::findHandles(m_base, m_models.catalogues);
    ask();
}

void Desk::open(LessonFile lesson) {
    show(std::move(lesson.document));
    m_lesson = std::move(lesson.lesson);
    m_step = 0;
    enterStep();
}

void Desk::openFile(const std::filesystem::path& path) {
    const bool is_lesson = file::headingOf(file::readBytes(path)).what == "lesson";
    std::error_code error;
    const auto written = std::filesystem::last_write_time(path, error);
    if (is_lesson)
        open(file::readLesson(path, m_builtin));
    else
        open(file::read(path, m_builtin));
    m_file = path;
    m_written = written;
    desk::rememberFile(path);
}

void Desk::listFiles() {
    if (m_revealed != Reveal::Everything)
        return;
    const auto folder = m_file.empty() ? std::filesystem::path("scenes") : m_file.parent_path();
    m_choices = desk::findChoices(folder.empty() ? "." : folder);
    const auto lately = desk::recentFiles();
    for (auto path = lately.rbegin(); path != lately.rend(); ++path)
        if (auto choice = desk::choiceOf(*path)) {
            std::erase_if(m_choices, [&](const Choice& other) {
                std::error_code error;
                return std::filesystem::equivalent(other.path, *path, error);
            });
            m_choices.insert(m_choices.begin(), std::move(*choice));
        }
    m_chosen = 0;
    m_cover = Cover::Files;
}

void Desk::choose(int direction) {
    if (direction > 0 && m_chosen + 1 < m_choices.size())
        ++m_chosen;
    else if (direction < 0 && m_chosen > 0)
        --m_chosen;
}

void Desk::openChoice(std::size_t index) {
    m_cover = Cover::None;
    if (index >= m_choices.size())
        return;
    try {
        openFile(m_choices[index].path);
    } catch (const SceneError& error) {
        m_obstacle = firstLine(error.what());
    } catch (const std::system_error& error) {
        m_obstacle = describe(error);
    }
}

/// Somebody has written to the file: the same step of it, handles as drawn.
void Desk::reread() {
    constexpr double every_s = 1;
    if (m_file.empty() || m_since_look_s < every_s)
        return;
    m_since_look_s = 0;
    std::error_code error;
    const auto written = std::filesystem::last_write_time(m_file, error);
    if (error || written == m_written)
        return;
    m_written = written; // once, whether it can be read or not
    const auto step = m_step;
    try {
        openFile(std::filesystem::path(m_file));
        if (m_lesson && step < m_lesson->steps.size() && step > 0) {
            m_step = step;
            enterStep();
        }
    } catch (const SceneError& problem) {
        m_obstacle = firstLine(problem.what());
    } catch (const std::system_error& problem) {
        m_obstacle = describe(problem);
    }
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
    m_player = {};
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
    if (m_revealed != Reveal::Everything || handle == m_handles.end() || !handle->turn(direction))
        return;
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
    m_hands = std::nullopt;
    m_player.seek(m_player.timeline().moments_s.front());
    m_player.pause();
}

void Desk::reveal() {
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
    const bool is_new = answer.has_value();
    if (answer)
        take(std::move(*answer));
    return is_new || m_player.at() != at_s;
}

void Desk::take(study::LiveAnswer answer) {
    if (const auto* reason = std::get_if<std::string>(&answer.found)) {
        if (answer.edit == m_edit)
            m_obstacle = firstLine(*reason); // what follows is the log
        return;
    }
    m_obstacle.clear();
    auto& examination = std::get<Examination>(answer.found);
    const Installation installation = examination.network.installation;
    auto shown = std::make_shared<Shown>(
        study::judge(std::move(examination), {}, installation, m_models, {}), answer.edit);
    // A final run has its worst moment elsewhere than its draft.
    const bool stood_at_worst = m_player.at() == m_player.timeline().worst_s;
    m_player.show(timelineOf(shown->inquiry));
    if (stood_at_worst)
        m_player.seekWorst();
    m_now = std::move(shown);
    if (m_is_arriving)
        arrive();
}

} // namespace ebbline
