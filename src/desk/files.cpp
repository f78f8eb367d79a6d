// SPDX-License-Identifier: MIT
// Files on the desk: opened, listed, noticed when they change, laid under.
#include "paper.h"

#include "ebbline/canvas.h"
#include "ebbline/desk.h"
#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <system_error>
#include <utility>

namespace ebbline {

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
    const std::filesystem::path shipped = EBBLINE_SCENES;
    const auto folder = m_file.empty() ? shipped : std::filesystem::absolute(m_file).parent_path();
    m_choices = desk::findChoices(folder);
    std::error_code error;
    for (Choice& choice : desk::findChoices(shipped))
        if (std::ranges::none_of(m_choices, [&](const Choice& other) {
                return std::filesystem::equivalent(other.path, choice.path, error);
            }))
            m_choices.push_back(std::move(choice));
    const auto lately = desk::recentFiles();
    for (auto path = lately.rbegin(); path != lately.rend(); ++path)
        if (auto choice = desk::choiceOf(*path)) {
            std::erase_if(m_choices, [&](const Choice& other) {
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

void Desk::attempt(const auto& task) {
    try {
        task();
    } catch (const SceneError& error) {
        setObstacle(error.what());
    } catch (const std::system_error& error) {
        setObstacle(describe(error));
    }
}

void Desk::openChoice(std::size_t index) {
    m_cover = Cover::None;
    if (index < m_choices.size())
        attempt([&] { openFile(m_choices[index].path); });
}

void Desk::layUnder(std::size_t index) {
    m_cover = Cover::None;
    if (index >= m_choices.size())
        return;
    attempt([&] {
        const Choice& choice = m_choices[index];
        Document document = choice.is_lesson ? file::readLesson(choice.path, m_builtin).document
                                             : file::read(choice.path, m_builtin);
        constexpr double size = 10;
        constexpr double most_width = 20 * size; // of its name beside a line
        auto under = std::make_unique<Under>(Under{
            .models = m_models,
            .name = drawing::shortened(text::escapeControls(choice.title), size, false, most_width),
            .live = nullptr,
            .shown = nullptr});
        under->models.catalogues = document.catalogues;
        under->live = std::make_unique<study::Live>(under->models, m_settings);
        under->live->ask(0,
                         installation::apply(document.installation,
                                             installation::faultChanges(document.installation)));
        m_under = std::move(under);
    });
}

void Desk::writePaper() {
    if (m_revealed != Reveal::Everything || !m_document)
        return;
    HandoutEdition edition{.version = EBBLINE_VERSION, .scene = m_file.filename().string()};
    for (const Handle& handle : m_handles)
        if (handle.isTurned())
            edition.changes.push_back(desk::nameOf(handle.kind) + ": " +
                                      handle.rungs[handle.at].text);
    const std::filesystem::path stem = m_file.empty() ? std::filesystem::path("first-scene")
                                                      : m_file.parent_path() / m_file.stem();
    setNotice(words("Two sheets of paper are being written."));
    m_paper->write(m_installation, m_models, m_settings, std::move(edition), stem);
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
    attempt([&] {
        openFile(std::filesystem::path(m_file));
        if (m_lesson && step < m_lesson->steps.size() && step > 0) {
            m_step = step;
            enterStep();
        }
    });
}

} // namespace ebbline
