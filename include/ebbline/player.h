// SPDX-License-Identifier: MIT
// Which moment of a start is shown while it is played. Knows nothing of a clock but what it is
// told.
#pragma once

#include "ebbline/telling.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace ebbline {

/// What there is to play of one start.
struct Timeline {
    /// Scene times in rising order, at least two, each to be shown equally long: they lie close
    /// together where much happens.
    std::vector<double> moments_s{0, 1};
    double worst_s = 0;
    std::vector<double> events_s; ///< of the whole run, in rising order
    double horizon_s = 1;         ///< where the run ends: behind the moments lie the retries
};

/// How scene time follows time: stretched over eight seconds, slower than life, as in life, faster;
/// or without motion, from event to event.
enum class Pace { Stretched, Slow, Life, Fast, Events };
inline constexpr int all_paces = 5;

class Player {
public:
    /// Another start, or another run of the same one: the cursor stays where it can.
    void show(Timeline timeline);

    /// From the beginning where it stands at an end.
    void play();
    void pause() { m_is_playing = false; }
    /// Plays, or halts.
    void toggle();
    [[nodiscard]] bool isPlaying() const { return m_is_playing; }

    void setPace(Pace pace) { m_pace = pace; }
    [[nodiscard]] Pace pace() const { return m_pace; }

    /// So much time has gone by. Halts when it comes by the worst moment.
    void advance(double seconds);

    void seek(double at_s);
    void seekWorst() { seek(m_timeline.worst_s); }
    /// To the next moment, or back to the one before.
    void step(int direction);
    /// To the next event, or back to the one before.
    /// False where there is none.
    bool stepEvent(int direction);

    /// Playing goes round within the stretch.
    void mark(std::optional<Stretch> loop);
    /// The stretch begins, or ends, where the cursor stands.
    void markBeginning();
    void markEnd();
    [[nodiscard]] const std::optional<Stretch>& loop() const { return m_loop; }

    [[nodiscard]] double at() const { return m_at_s; }
    [[nodiscard]] const Timeline& timeline() const { return m_timeline; }
    /// Whether the worst moment has been shown since it was played from the beginning: its outline
    /// stays then.
    [[nodiscard]] bool wasAtWorst() const { return m_was_at_worst; }

private:
    [[nodiscard]] double beginning() const;
    [[nodiscard]] double end() const;
    [[nodiscard]] double after(double seconds) const;
    [[nodiscard]] double stretched(double seconds) const;
    void goFromEventToEvent(double seconds);

    Timeline m_timeline;
    std::optional<Stretch> m_loop;
    Pace m_pace = Pace::Stretched;
    double m_at_s = 0;
    double m_waited_s = 0; ///< at an event
    bool m_is_playing = false;
    bool m_was_at_worst = false;
};

} // namespace ebbline
