// SPDX-License-Identifier: MIT
// The open installation with all that is asked of it: what a window shows and what its keys do.
#pragma once

#include "ebbline/choices.h"
#include "ebbline/edit.h"
#include "ebbline/handles.h"
#include "ebbline/inquiry.h"
#include "ebbline/leads.h"
#include "ebbline/live.h"
#include "ebbline/magnifier.h"
#include "ebbline/player.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace ebbline {

/// How much of a start a class is shown, stage by stage.
enum class Reveal { Nothing, Whether, Where, Everything };

/// What lies over the pictures.
enum class Cover { None, Help, Words, Files };

/// What a beginner is told, who has opened nothing yet: one handle, until it has made the fridge
/// start.
enum class Welcome { Over, OneHandle, Started };

/// A start that can be shown.
struct Shown {
    Inquiry inquiry;
    std::uint64_t edit = 0; ///< what it belongs to
    bool is_whole = false;  ///< what would make it start is known
};

namespace desk {
class PaperWriter;
}

class Desk {
public:
    Desk(Models models, engine::PoolSettings settings);
    /// Waits for sheets of paper that are being written.
    ~Desk();
    Desk(const Desk&) = delete;
    Desk& operator=(const Desk&) = delete;

    /// Another installation. Its start is asked for.
    void open(Document document);
    /// The scene to begin with, for somebody who has never opened one.
    void welcome(Document document);
    [[nodiscard]] Welcome greeting() const { return m_welcome; }
    /// A lesson, at its first step.
    void open(LessonFile lesson);
    /// A scene or a lesson by its file, which is watched from now on: what is written to it is
    /// shown within a second. Throws SceneError and std::system_error.
    void openFile(const std::filesystem::path& path);
    /// Files that lie beside the open one, and before them those opened lately.
    [[nodiscard]] const std::vector<Choice>& choices() const { return m_choices; }
    [[nodiscard]] std::size_t chosen() const { return m_chosen; }
    /// Lays the list of files over the pictures; not while something is hidden, which titles tell.
    void listFiles();
    void choose(int direction);
    /// Opens one of the list. Why it cannot be opened stands above the foot then.
    void openChoice(std::size_t index);
    /// Lays one of the list under the open one, as an outline; of a lesson its scene.
    void layUnder(std::size_t index);
    void takeUnderAway() { m_under = nullptr; }
    /// The start of what is laid under, and what it is called; nothing without, or until it is
    /// there.
    [[nodiscard]] std::optional<Outline> under() const;
    [[nodiscard]] const Lesson* lesson() const { return m_lesson ? &*m_lesson : nullptr; }
    /// The step of the lesson, counted from 0.
    [[nodiscard]] std::size_t step() const { return m_step; }
    /// On or back by one step; nothing happens at the ends, or without a lesson.
    void goOn(int direction);
    /// Whether the answer to the step's question is shown.
    [[nodiscard]] bool isAnswered() const { return m_is_answered; }
    [[nodiscard]] bool isOpen() const { return m_document != nullptr; }
    [[nodiscard]] const Document& document() const { return *m_document; }
    /// As drawn, with what the handles change.
    [[nodiscard]] const Installation& installation() const { return m_installation; }

    [[nodiscard]] const std::vector<Handle>& handles() const { return m_handles; }
    /// Up or down by one; the run before stays as an outline. Nothing happens at the end of a row,
    /// nor while handles are hidden.
    void turn(HandleKind kind, int direction);
    /// All handles as drawn.
    void putBack();

    /// So much time has gone by; takes what was found meanwhile. True where there is something new
    /// to see.
    bool advance(double seconds);

    [[nodiscard]] Player& player() { return m_player; }
    [[nodiscard]] const Player& player() const { return m_player; }

    /// Hides all that is computed or tells, or shows it again.
    void hide(bool is_hidden);
    /// One stage more; of a lesson at last the answer.
    void reveal();
    [[nodiscard]] Reveal revealed() const { return m_revealed; }
    /// Hands counted in class: typed digit by digit, the last two count.
    void countHands(int digit) { m_hands = (m_hands.value_or(0) % 10) * 10 + digit; }
    [[nodiscard]] std::optional<int> hands() const { return m_hands; }

    /// Writes the sheet for a class and its answers beside the open file, as the handles stand; not
    /// while something is hidden. What became of it is told by notice().
    void writePaper();
    /// What has been done lately, in words; empty after a while.
    [[nodiscard]] const std::string& notice() const { return m_notice; }
    /// A meter's leads; nothing while none is held to the wiring.
    [[nodiscard]] std::optional<Leads>& leads() { return m_leads; }
    [[nodiscard]] const std::optional<Leads>& leads() const { return m_leads; }
    /// Takes the meter, its leads on the fridge, or puts it away; not while something is hidden.
    void toggleMeter();
    /// The lead in hand goes there, and then the other one is in hand.
    void putLead(const Terminal& terminal);
    [[nodiscard]] Magnifier& magnifier() { return m_magnifier; }
    [[nodiscard]] const Magnifier& magnifier() const { return m_magnifier; }
    /// Away with one thing: what lies over, else the enlargement, the stretch that is played round,
    /// the meter, what lies under, the start before, the welcome.
    void dismiss();

    void setRoom(bool is_room) { m_is_room = is_room; }
    [[nodiscard]] bool isRoom() const { return m_is_room; }
    void setCover(Cover cover) { m_cover = cover; }
    [[nodiscard]] Cover cover() const { return m_cover; }
    /// Where the pointer rests, so that what lies there is named; nothing: nowhere.
    void point(std::optional<Point> at) { m_pointer = at; }
    [[nodiscard]] std::optional<Point> pointer() const { return m_pointer; }

    /// The newest start; nothing before the first one is there.
    [[nodiscard]] const Shown* now() const { return m_now.get(); }
    /// The one before the last change; nothing where there is none.
    [[nodiscard]] const Shown* before() const { return m_before.get(); }
    /// What is shown belongs to an earlier edit.
    [[nodiscard]] bool isOld() const { return m_now && m_now->edit != m_edit; }
    /// A final start is still to come.
    [[nodiscard]] bool isBusy() const { return m_live && m_live->isBusy(); }
    /// Why the newest run gave no start, in one line; empty where it did.
    [[nodiscard]] const std::string& obstacle() const { return m_obstacle; }

private:
    /// Another scene, with its own catalogues and workers until its final run is there.
    struct Under {
        Models models;
        std::string name;
        std::unique_ptr<study::Live> live;
        std::shared_ptr<const Shown> shown;
    };

    void show(Document document);
    /// Why something could not be done stands above the foot then.
    void attempt(const auto& task);
    void setObstacle(const std::string& text);
    void takeUnder();
    void setNotice(std::string text);
    void reread();
    void enterStep();
    void arrive();
    void ask();
    void take(study::LiveAnswer answer);
    void keepBefore(HandleKind kind);

    Models m_models;      ///< with the catalogues of the document
    Catalogues m_builtin; ///< those a document is read with
    engine::PoolSettings m_settings;
    std::unique_ptr<study::Live> m_live;
    std::unique_ptr<Document> m_document;
    std::filesystem::path m_file; ///< empty for the embedded scene
    std::filesystem::file_time_type m_written;
    double m_since_look_s = 0;
    std::vector<Choice> m_choices;
    std::size_t m_chosen = 0;
    Installation m_drawn; ///< with its faults
    Installation m_base;  ///< what the handles start from: as drawn, or as the lesson's step has it
    std::optional<Lesson> m_lesson;
    std::size_t m_step = 0;
    bool m_is_answered = false;
    bool m_is_arriving = false; ///< the first start of a document or step is still to come
    Installation m_installation;
    std::vector<Handle> m_handles;
    Welcome m_welcome = Welcome::Over;
    std::unique_ptr<Under> m_under;
    std::optional<Leads> m_leads;
    Magnifier m_magnifier;
    Player m_player;
    std::shared_ptr<const Shown> m_now;
    std::shared_ptr<const Shown> m_before;
    std::string m_obstacle;
    std::string m_notice;
    double m_since_notice_s = 0;
    std::unique_ptr<desk::PaperWriter> m_paper;
    std::uint64_t m_edit = 0;
    Reveal m_revealed = Reveal::Everything;
    std::optional<int> m_hands;
    bool m_is_room = false;
    Cover m_cover = Cover::None;
    std::optional<Point> m_pointer;
    std::optional<HandleKind> m_turned; ///< last, and not long ago
    double m_since_turn_s = 0;
};

namespace desk {

/// Where something on the sheet can be clicked.
struct Spot {
    Box box;
    std::optional<HandleKind> handle;
    int direction = 0;                 ///< of the handle
    std::optional<std::size_t> choice; ///< of the list of files; neither of them: play or halt
};

/// The whole window as one drawing, and where its clicks go.
struct Sheet {
    Drawing drawing;
    std::vector<Spot> spots;
    Box pictures; ///< where the pictures stand

    /// The time axis across a place; nothing elsewhere.
    [[nodiscard]] std::optional<TimeAxis> axisAt(Point at) const;
    /// The terminal nearest to a place, within a finger's breadth; nothing elsewhere.
    [[nodiscard]] std::optional<Terminal> terminalAt(Point at) const;
};

/// Pixels. Below that texts would come to lie over each other; a smaller window shows it smaller.
inline constexpr double least_width = 1024;
inline constexpr double least_height = 640;

/// Everything the window shows, which is of that size or larger.
[[nodiscard]] Sheet draw(const Desk& desk, const View& view);

} // namespace desk
} // namespace ebbline
