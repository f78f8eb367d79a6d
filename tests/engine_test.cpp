// SPDX-License-Identifier: MIT
// Frames of the worker protocol, what is let in, and what counts as solved.
#include "engine/accept.h"
#include "engine/protocol.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace ebbline;
using namespace ebbline::engine;
using Catch::Matchers::Contains;

namespace {

const Job job{.circuit = "* title\n.end\n",
              .vectors = {"v(a)", "i(l)"},
              .potentials = {0},
              .stop_s = 2,
              .highest_v = 12,
              .usual_points = 77,
              .causes = {{.state = 1, .rises = true, .by = 0, .above = true, .level = 23}}};
const Solved good{{0.5, 1, 2}, {{0, 24, -24}, {1e9, 0, 1}}};

} // namespace

TEST_CASE("a job and its answers come out of the protocol as they went in", "[engine]") {
    CHECK(readJob(makeJob(job)) == job);
    const Solved odd{{0.1, std::numeric_limits<double>::denorm_min()}, {{-0.0, 1e308}}};
    CHECK(std::get<Solved>(readAnswer(makeAnswer(odd))) == odd);
    const NotSolved failed{.reason = "why", .log = "what\nwas said"};
    CHECK(std::get<NotSolved>(readAnswer(makeAnswer(failed))) == failed);
}

TEST_CASE("frames arrive whole however the bytes are cut", "[engine]") {
    const std::string bytes = encode(makeHello()) + encode(makeJob(job));
    FrameReader reader;
    std::vector<engine::Frame> frames;
    for (const char byte : bytes) {
        reader.feed({&byte, 1});
        while (auto frame = reader.next())
            frames.push_back(*frame);
    }
    REQUIRE(frames.size() == 2);
    CHECK_NOTHROW(requireHello(frames[0]));
    CHECK(readJob(frames[1]) == job);
    CHECK_FALSE(reader.isHalf());
}

TEST_CASE("what breaks the protocol is refused before anything is allocated", "[engine]") {
    CHECK_THROWS_WITH(requireHello(makeHello(protocol_version + 1)), Contains("version"));
    FrameReader garbage;
    garbage.feed(std::string(16, '\xEE'));
    CHECK_THROWS_WITH(static_cast<void>(garbage.next()), Contains("unknown kind"));
    FrameReader boast;
    boast.feed(std::string("\x00\x00\x00\x40\x03", 5)); // 1 GiB
    CHECK_THROWS_WITH(static_cast<void>(boast.next()), Contains("announces 1073741824 bytes"));
    engine::Frame cut = makeAnswer(good);
    cut.payload.resize(cut.payload.size() - 1);
    CHECK_THROWS_AS(static_cast<void>(readAnswer(cut)), ProtocolError);
    engine::Frame longer = makeAnswer(good);
    longer.payload += 'x';
    CHECK_THROWS_AS(static_cast<void>(readAnswer(longer)), ProtocolError);
    engine::Frame lying = makeAnswer(good);
    lying.payload[7] = '\x7F'; // a count beyond all memory
    CHECK_THROWS_AS(static_cast<void>(readAnswer(lying)), ProtocolError);
}

TEST_CASE("solved means to the end, finite, rising and within the source's reach", "[engine]") {
    CHECK(whyNotSolved(job, good).empty());
    Solved early = good;
    early.time_s.back() = 1.999;
    CHECK_THAT(whyNotSolved(job, early), Contains("ended at 1.999 s of 2 s"));
    Solved wild = good;
    wild.vectors[0][1] = 24.001;
    CHECK_THAT(whyNotSolved(job, wild), Contains("'v(a)' lies beyond"));
    Solved infinite = good;
    infinite.vectors[1][0] = std::numeric_limits<double>::infinity();
    CHECK_THAT(whyNotSolved(job, infinite), Contains("not finite"));
    Solved backwards = good;
    std::swap(backwards.time_s[0], backwards.time_s[1]);
    CHECK_THAT(whyNotSolved(job, backwards), Contains("does not rise"));
    Solved missing = good;
    missing.vectors[1].clear();
    CHECK_THAT(whyNotSolved(job, missing), Contains("no vector 'i(l)'"));
    CHECK_THAT(whyNotSolved(job, {}), Contains("no time vector"));
    Job strict = job;
    strict.causes.front().level = 25;
    CHECK_THAT(whyNotSolved(strict, good), Contains("'i(l)' moves without a cause at 2 s"));
    CHECK(wentAstray(strict, good));
    strict.causes.push_back({.state = 1, .rises = true, .by = 0, .level = -23});
    CHECK(whyNotSolved(strict, good).empty());
}

TEST_CASE("only a run that went astray is tried again, in other ways", "[engine]") {
    CHECK_FALSE(wentAstray(job, good));
    CHECK_FALSE(wentAstray(job, {}));
    Solved wild = good;
    wild.vectors[0][1] = 24.001;
    CHECK(wentAstray(job, wild));
    Solved early = good;
    early.time_s.back() = 1.999;
    CHECK(wentAstray(job, early));
    const auto options = [](const std::string& text) {
        return "* t\n.options " + text + "\nr1 a 0 1\n";
    };
    CHECK(closerOnes(options("pivrel=0.1 reltol=1 xtrtol=7")) ==
          std::vector{options("pivrel=0.1 reltol=0.9 xtrtol=7"),
                      options("pivrel=0.1 reltol=0.8 xtrtol=7"),
                      options("pivrel=0.1 reltol=0.7 xtrtol=7")});
    CHECK(otherOrders(options("pivrel=0.1")) ==
          std::vector{options("pivrel=0.5"), options("pivrel=0.001")});
    CHECK(otherOrders("* t\nr1 a 0 1\n").empty());
    CHECK(closerOnes("* t\nr1 a 0 1\n").empty());
}

TEST_CASE("no circuit text can run a command or read a file", "[engine]") {
    CHECK(whyRefused("* title\nr1 a 0 1\n.tran 1 2\n.end\n").empty());
    for (const char* text : {"* t\n.control\nshell touch x\n.endc\n",
                             "* t\n  .CONTROL\n",
                             "* t\n.include other.cir\n",
                             "* t\n.lib other.lib a\n",
                             "* t\n*# shell touch x\n",
                             "* t\n*ng_script\n",
                             "*ng_script\nshell touch x\n",
                             "* t\n.csparam x = 1\n"})
        CHECK_THAT(whyRefused(text), Contains("refused"));
}
