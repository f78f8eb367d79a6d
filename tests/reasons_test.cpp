// SPDX-License-Identifier: MIT
// Why a circuit was not solved, in German as in English.
#include "engine/accept.h"
#include "engine/protocol.h"
#include "in_german.h"

#include "ebbline/engine.h"
#include "ebbline/study.h"

#include <functional>
#include <limits>

using namespace ebbline;

namespace {

void checkReason(const std::string& reason) {
    CHECK(engine::reasonInWords(reason) == reason);
    checkSaid(reason, germanOf([&] { return engine::reasonInWords(reason); }));
}

std::string protocolError(const std::function<void()>& make) {
    try {
        make();
    } catch (const engine::ProtocolError& error) {
        return error.what();
    }
    return "";
}

} // namespace

TEST_CASE("why a circuit was not solved is told in German", "[words][engine]") {
    const Job job{
        .circuit = "* c", .vectors = {"v(a)"}, .potentials = {0}, .stop_s = 2, .highest_v = 12};
    const Solved good{{0, 1, 2}, {{1, 2, 3}}};
    const auto not_solved = [&](const std::function<void(Solved&)>& spoil) {
        Solved solved = good;
        spoil(solved);
        checkReason(engine::whyNotSolved(job, solved));
    };
    not_solved([](Solved& solved) { solved.time_s.clear(); });
    not_solved([](Solved& solved) { solved.vectors.clear(); });
    not_solved([](Solved& solved) { solved.vectors[0].clear(); });
    not_solved(
        [](Solved& solved) { solved.vectors[0][0] = std::numeric_limits<double>::infinity(); });
    not_solved([](Solved& solved) { solved.time_s[2] = 1.5; });
    not_solved([](Solved& solved) { solved.time_s[1] = 0; });
    not_solved([](Solved& solved) { solved.vectors[0][0] = 100; });
    checkReason(engine::whyRefused(".control\n"));
    checkReason(engine::whyRefused("* t\n.include x\n"));
    CHECK(germanOf([&] {
              return engine::reasonInWords("called solved, but the run ended at 1.5 s of 2 s");
          }) == "als gelöst gemeldet, aber die Rechnung endete bei 1.5 s von 2 s");
    CHECK(germanOf([&] {
              return engine::reasonInWords("the answer ends within a frame (ended by signal 9)");
          }) == "die Antwort endet mitten in einem Rahmen (durch Signal 9 beendet)");
    CHECK(germanOf([&] {
              return engine::reasonInWords("cannot start a worker: Permission denied");
          }) == "ein Rechenprozess lässt sich nicht starten: keine Berechtigung");
    // Whatever no table knows stays as it is.
    CHECK(germanOf([&] { return engine::reasonInWords("because"); }) == "because");
}

TEST_CASE("what breaks the protocol is told in German", "[words][engine]") {
    using namespace engine;
    const engine::Frame answer = makeAnswer(Solved{{0, 1}, {{1, 2}}});
    engine::Frame cut = answer;
    cut.payload.pop_back();
    engine::Frame longer = answer;
    longer.payload += 'x';
    engine::Frame wrong = answer;
    wrong.kind = FrameKind::Job;
    for (const engine::Frame& frame : {cut, longer, wrong})
        checkReason(protocolError([&] { static_cast<void>(readAnswer(frame)); }));
    checkReason(protocolError([&] { requireHello(makeHello(protocol_version + 1)); }));
    checkReason(protocolError([&] {
        static_cast<void>(readJob(makeJob({.circuit = "", .vectors = {}, .potentials = {3}})));
    }));
    checkReason(
        protocolError([&] { static_cast<void>(readAnswer(makeAnswer(Solved{{0, 1}, {{1}}}))); }));
    for (const std::string& bytes :
         {std::string(16, '\xEE'), std::string("\x00\x00\x00\x40\x03", 5)}) {
        FrameReader reader;
        reader.feed(bytes);
        checkReason(protocolError([&] { static_cast<void>(reader.next()); }));
    }
}

TEST_CASE("a failed run is told in German, the simulator's own words as they are", "[words]") {
    const auto say = [](const Solution& solution) -> std::string {
        try {
            static_cast<void>(study::requireSolved(solution));
        } catch (const EngineError& error) {
            return error.what();
        }
        return "";
    };
    const Solution failed = NotSolved{.reason = "time does not rise", .log = "stdout singular"};
    CHECK(say(failed) == "not solved: time does not rise\nstdout singular");
    CHECK(say(Crashed{"exit status 7"}) == "the worker was lost: exit status 7");
    CHECK(say(Rejected{"an answer out of turn"}) ==
          "the worker's answer was refused: an answer out of turn");
    const ReadingAs reader({.language = "de"});
    CHECK(say(failed) == "nicht gelöst: die Zeit steigt nicht\nstdout singular");
    CHECK(say(Crashed{"exit status 7"}) == "der Rechenprozess ging verloren: Rückgabe 7");
    CHECK(say(Rejected{"an answer out of turn"}) ==
          "die Antwort des Rechenprozesses wurde abgelehnt: eine Antwort außer der Reihe");
}
