// SPDX-License-Identifier: MIT
// The only place of ngspice. Its return codes say nothing: what counts is what it leaves behind.
#include "spice.h"

#include "accept.h"
#include "sandbox.h"

#include <ngspice/sharedspice.h>

#include <algorithm>
#include <array>
#include <clocale>
#include <deque>
#include <iterator>
#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace ebbline::engine {
namespace {

constexpr std::size_t log_lines = 20;

/// What the library says while it works; it has one set of callbacks per process.
struct Session {
    std::deque<std::string> log;
    bool must_end = false;
};

Session& session() {
    static Session only;
    return only;
}

int onText(char* text, int, void*) {
    auto& log = session().log;
    log.emplace_back(text);
    if (log.size() > log_lines)
        log.pop_front();
    return 0;
}

// The library returns to its caller after this call; the worker then ends by itself.
int onExit(int, NG_BOOL, NG_BOOL, int, void*) {
    session().must_end = true;
    return 0;
}

std::string takeLog() {
    std::string text;
    for (const std::string& line : session().log)
        text += line + "\n";
    session().log.clear();
    return text;
}

void command(std::string text) { // the library writes into what it is given
    ngSpice_Command(text.data());
}

void load(const std::string& circuit) {
    std::vector<std::string> lines;
    std::istringstream text(circuit);
    for (std::string line; std::getline(text, line);)
        lines.push_back(line);
    std::vector<char*> pointers;
    pointers.reserve(lines.size() + 1);
    for (std::string& line : lines)
        pointers.push_back(line.data());
    pointers.push_back(nullptr);
    ngSpice_Circ(pointers.data());
}

/// A copy of a vector of the current plot; empty when there is none. The library describes every
/// vector in one static record, so it is copied before the next question.
std::vector<double> vectorNamed(const std::string& name) {
    std::string copy = name;
    const vector_info* info = ngGet_Vec_Info(copy.data());
    if (info == nullptr || info->v_realdata == nullptr || info->v_length <= 0)
        return {};
    return {info->v_realdata, info->v_realdata + info->v_length};
}

Solved collect(const Job& job) {
    Solved solved{.time_s = vectorNamed("time")};
    for (const std::string& name : job.vectors)
        solved.vectors.push_back(vectorNamed(name));
    return solved;
}

struct Run {
    Solved solved;
    std::string log;
};

/// Loads, runs, copies, forgets. Halts after so many points, unless that is 0.
Run runOnce(const Job& job, const std::string& circuit, std::uint64_t most_points) {
    session().log.clear();
    load(circuit);
    if (!mustEnd() && most_points > 0)
        command("stop after " + std::to_string(most_points));
    if (!mustEnd())
        command("run");
    Run run{.solved = mustEnd() ? Solved{} : collect(job)};
    if (!mustEnd()) {
        command("delete all"); // what halts
        command("destroy all");
        command("remcirc");
    }
    run.log = takeLog();
    return run;
}

bool isHalted(const Job& job, const Solved& solved) {
    return job.usual_points > 0 && solved.time_s.size() >= job.usual_points;
}

/// In one way after the other, until one goes well. Where one was only slow, it may take its time
/// after the last order: followed more closely it would be slower still.
Run runInAnyWay(const Job& job) {
    std::vector<std::string> ways = otherOrders(job.circuit);
    ways.insert(ways.begin(), job.circuit);
    const std::size_t orders = ways.size();
    std::ranges::move(closerOnes(job.circuit), std::back_inserter(ways));
    const std::string* slow = nullptr;
    Run run;
    for (std::size_t i = 0; i < (slow != nullptr ? orders : ways.size()); ++i) {
        const std::string& way = ways[i];
        run = runOnce(job, way, job.usual_points);
        if (mustEnd() || !wentAstray(job, run.solved))
            return run;
        if (slow == nullptr && isHalted(job, run.solved))
            slow = &way;
    }
    return slow != nullptr ? runOnce(job, *slow, 0) : run;
}

} // namespace

void startSpice() {
    std::setlocale(LC_NUMERIC, "C"); // a decimal comma would crash the loading of any circuit
    ngSpice_Init(onText, onText, onExit, nullptr, nullptr, nullptr, nullptr);
    const std::string log = takeLog();
    // Another start-up file would load other code models, and could run anything.
    command(std::string("echo $") + start_up_variable);
    if (takeLog().find(start_up_value) == std::string::npos)
        throw std::runtime_error("it did not read its own start-up file\n" + log);
}

Solution runSpice(const Job& job) {
    if (const std::string reason = whyRefused(job.circuit); !reason.empty())
        return NotSolved{.reason = reason};
    if (mustEnd())
        return NotSolved{.reason = "the simulator ended with an earlier circuit"};
    Run run = runInAnyWay(job);
    if (const std::string reason = whyNotSolved(job, run.solved); !reason.empty())
        return NotSolved{.reason = reason, .log = run.log};
    return std::move(run.solved);
}

bool mustEnd() {
    return session().must_end;
}

} // namespace ebbline::engine
