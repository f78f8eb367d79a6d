// SPDX-License-Identifier: MIT
// Why a job was not solved, as people read it.
#include "ebbline/engine.h"
#include "ebbline/error.h"
#include "ebbline/words.h"

#include <array>
#include <vector>

namespace ebbline::engine {
namespace {

/// As they are made in this folder.
constexpr std::array sentences{
    // what is let in, and what counts as solved
    phrase("refused: the title is a command"),
    phrase("refused: '{}' is no part of a plain circuit"),
    phrase("the simulator produced no time vector"),
    phrase("the simulator produced no vector '{}'"),
    phrase("there are {} vectors, expected {}"),
    phrase("a value is not finite"),
    phrase("the run ended at {} s of {} s"),
    phrase("time does not rise"),
    phrase("'{}' lies beyond twice the highest source"),
    phrase("'{}' moves without a cause at {} s"),
    phrase("called solved, but {}"),
    // the simulator and its worker
    phrase("the simulator did not start: {}"),
    phrase("the simulator ended with an earlier circuit"),
    phrase("it did not read its own start-up file\n{}"),
    phrase("the solution has {} bytes, expected at most {}"),
    phrase("the worker closed its socket and did not end"),
    phrase("the answer ends within a frame ({})"),
    phrase("ended by signal {}"),
    phrase("exit status {}"),
    phrase("cannot start a worker: {}"),
    phrase("TMPDIR or the like names no folder: {}"),
    phrase("cannot make {}: {}"),
    phrase("cannot write {}: {}"),
    // the protocol
    phrase("an answer out of turn"),
    phrase("a payload ends before its contents"),
    phrase("a payload goes on after its contents"),
    phrase("a frame of another kind than expected"),
    phrase("a frame of unknown kind {}"),
    phrase("a frame of {} bytes, expected at most {}"),
    phrase("a frame announces {} bytes"),
    phrase("the worker speaks version {} of the protocol, expected {}"),
    phrase("a vector has another length than time"),
    phrase("a potential that is none of the vectors"),
    phrase("a cause that is none of the vectors"),
};

} // namespace

std::string reasonInWords(const std::string& reason) {
    std::vector<const char*> known(sentences.begin(), sentences.end());
    const auto refusals = systemRefusals();
    known.insert(known.end(), refusals.begin(), refusals.end());
    return fromEnglish(reason, known);
}

} // namespace ebbline::engine
