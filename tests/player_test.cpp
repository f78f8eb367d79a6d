// SPDX-License-Identifier: MIT
// The cursor while a start is played.
#include "ebbline/player.h"

#include <catch2/catch.hpp>

using namespace ebbline;
using Catch::Matchers::WithinAbs;

namespace {

/// Moments close together around 1 s, where it is worst; a retry behind them.
Player playerOf() {
    Player player;
    player.show({.moments_s = {0, 0.5, 0.9, 0.95, 1, 1.05, 1.1, 1.5, 2},
                 .worst_s = 1,
                 .events_s = {0, 0.95, 61},
                 .horizon_s = 120});
    return player;
}

} // namespace

TEST_CASE("stretched, a start takes eight seconds and halts at its worst", "[player]") {
    Player player = playerOf();
    player.play();
    player.advance(1); // each of the eight gaps takes a second
    CHECK_THAT(player.at(), WithinAbs(0.5, 1e-9));
    player.advance(1.5);
    CHECK_THAT(player.at(), WithinAbs(0.925, 1e-9));
    CHECK_FALSE(player.wasAtWorst());
    player.advance(5);
    CHECK(player.at() == 1);
    CHECK_FALSE(player.isPlaying());
    CHECK(player.wasAtWorst());
    player.play();
    player.advance(0.5);
    CHECK_THAT(player.at(), WithinAbs(1.025, 1e-9)); // and goes on
    player.advance(100);
    CHECK(player.at() == 2);
    CHECK_FALSE(player.isPlaying());
    player.play();
    CHECK(player.at() == 0); // from the beginning
    CHECK_FALSE(player.wasAtWorst());
}

TEST_CASE("as in life a second is a second, faster shows the retries", "[player]") {
    Player player = playerOf();
    player.setPace(Pace::Life);
    player.play();
    player.advance(0.25);
    CHECK_THAT(player.at(), WithinAbs(0.25, 1e-9));
    player.setPace(Pace::Slow);
    player.advance(1);
    CHECK_THAT(player.at(), WithinAbs(0.35, 1e-9));
    player.setPace(Pace::Fast);
    player.advance(6);
    CHECK_THAT(player.at(), WithinAbs(72.35, 1e-9)); // it does not halt at the worst moment
    player.advance(100);
    CHECK(player.at() == 120);
    CHECK_FALSE(player.isPlaying());
}

TEST_CASE("steps go from moment to moment and from event to event", "[player]") {
    Player player = playerOf();
    player.step(-1);
    CHECK(player.at() == 0);
    player.step(1);
    CHECK(player.at() == 0.5);
    player.stepEvent(1);
    CHECK(player.at() == 0.95);
    player.stepEvent(1);
    CHECK(player.at() == 61);
    player.stepEvent(1);
    CHECK(player.at() == 61);
    player.stepEvent(-1);
    CHECK(player.at() == 0.95);
    player.seek(1e9);
    CHECK(player.at() == 120);
    player.seek(-5);
    CHECK(player.at() == 0);
}

TEST_CASE("a marked stretch is played round and round", "[player]") {
    Player player = playerOf();
    player.mark(Stretch{0.9, 1.1});
    player.seek(0.9);
    player.setPace(Pace::Life);
    player.play();
    player.advance(0.15);
    CHECK_THAT(player.at(), WithinAbs(1.05, 1e-9)); // past the worst moment without a halt
    player.advance(0.1);
    CHECK(player.at() == 0.9);
    CHECK(player.isPlaying());
    player.mark(Stretch{1, 1});
    CHECK_FALSE(player.loop().has_value());
}

TEST_CASE("another start keeps the cursor where it can", "[player]") {
    Player player = playerOf();
    player.seek(61);
    player.show({.moments_s = {0, 1}, .worst_s = 0.5, .events_s = {}, .horizon_s = 3});
    CHECK(player.at() == 3);
}

TEST_CASE("without motion it goes from event to event, and halts at the worst", "[player]") {
    Player player = playerOf();
    player.setPace(Pace::Events);
    player.play();
    player.advance(1);
    CHECK(player.at() == 0); // an event stands a while
    player.advance(1);
    CHECK(player.at() == 0.95);
    player.advance(2);
    CHECK(player.at() == 1); // no event lies there, but it is the worst moment
    CHECK_FALSE(player.isPlaying());
    CHECK(player.wasAtWorst());
    player.play();
    player.advance(2);
    CHECK(player.at() == 61);
    player.advance(2);
    CHECK_FALSE(player.isPlaying()); // there is no further one
    CHECK(player.at() == 61);
}

TEST_CASE("the cursor marks where a stretch begins and ends", "[player]") {
    Player player = playerOf();
    player.seek(0.5);
    player.markBeginning();
    REQUIRE(player.loop());
    CHECK(player.loop()->from_s == 0.5);
    CHECK(player.loop()->to_s == 2);
    player.seek(1.1);
    player.markEnd();
    CHECK(player.loop()->from_s == 0.5);
    CHECK(player.loop()->to_s == 1.1);
    player.seek(1.5);
    player.markBeginning(); // behind its end: there is none any more
    CHECK_FALSE(player.loop());
    player.markEnd();
    CHECK(player.loop()->from_s == 0);
    CHECK(player.loop()->to_s == 1.5);
}
