// SPDX-License-Identifier: MIT
// Lets a request to stop wake a thread that waits in poll.
#pragma once

#include <poll.h>

#include <functional>
#include <stop_token>

namespace ebbline::engine {

class Waker {
public:
    /// Throws std::system_error.
    explicit Waker(const std::stop_token& stop);
    ~Waker();
    Waker(const Waker&) = delete;
    Waker& operator=(const Waker&) = delete;

    /// To be waited for with the others; readable once the stop was requested.
    [[nodiscard]] pollfd pollEntry() const { return {m_event, POLLIN, 0}; }

private:
    int m_event;
    std::stop_callback<std::function<void()>> m_on_stop;
};

} // namespace ebbline::engine
