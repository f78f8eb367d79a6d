// SPDX-License-Identifier: MIT
// Solutions are handed out in the order of their jobs, whatever order they come in.
#pragma once

#include "ebbline/engine.h"

#include <deque>
#include <optional>
#include <utility>

namespace ebbline::engine {

/// Hands out what is decided at the front of a queue of things with a `solution`; whether anything
/// was.
template <class Waiting>
bool handOut(std::deque<Waiting>& queue, const Engine::Take& take) {
    bool is_any = false;
    while (!queue.empty()) {
        std::optional<Solution> solution = std::move(queue.front().solution);
        if (!solution)
            break;
        queue.pop_front();
        take(std::move(*solution));
        is_any = true;
    }
    return is_any;
}

} // namespace ebbline::engine
