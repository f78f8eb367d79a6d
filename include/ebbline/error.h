// SPDX-License-Identifier: MIT
// The two families of errors: a broken promise of the program, and bad input with its place.
#pragma once

#include <span>
#include <stdexcept>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

namespace ebbline {

/// How the program ends; printed by `--help`.
enum class ExitCode {
    Ran = 0,            ///< the simulation succeeded, whatever the fridge did
    NotAsExpected = 1,  ///< `--expect` named another outcome
    BadCommandLine = 2, ///< unknown option, missing argument, file that cannot be opened
    BadScene = 3,       ///< the scene or a catalogue has errors
    EngineFailed = 4,   ///< the circuit could not be solved, or the worker was lost
    InternalError = 5,  ///< a bug in this program
    Interrupted = 130,  ///< Ctrl-C
};

/// One thing wrong in a text, with its place and the text around it.
struct Problem {
    std::string file;
    int line = 0;   ///< counted from 1; 0 when the problem has no place
    int column = 0; ///< counted from 1, in characters
    std::string message;
    std::string source_line; ///< the line itself, for the caret; may be empty

    bool operator==(const Problem&) const = default;
};

/// Everything that is wrong in a file, sorted by place. `what()` is the full text for a person:
/// `file:line:column: message`, the line, a caret under the column.
class SceneError : public std::runtime_error {
public:
    explicit SceneError(std::vector<Problem> problems);
    [[nodiscard]] const std::vector<Problem>& problems() const { return m_problems; }

private:
    std::vector<Problem> m_problems;
};

/// The engine gave no usable answer; the text says what is known and how to run it again.
class EngineError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// What the system refused, in the reader's language as far as the table has its words.
[[nodiscard]] std::string describe(const std::system_error& error);
/// Its words for what it most often refuses, as texts of the table.
[[nodiscard]] std::span<const char* const> systemRefusals();

[[noreturn]] void failAssert(const char* condition, const char* sentence, const char* place);

} // namespace ebbline

#define EBBLINE_STRINGIZE_(x) #x
#define EBBLINE_STRINGIZE(x) EBBLINE_STRINGIZE_(x)
/// A promise of the program itself; never used for input. The sentence says what should hold.
#define EBBLINE_ASSERT(condition, sentence)                                                        \
    ((condition)                                                                                   \
         ? static_cast<void>(0)                                                                    \
         : ::ebbline::failAssert(#condition, sentence, __FILE__ ":" EBBLINE_STRINGIZE(__LINE__)))
