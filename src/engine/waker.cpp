// SPDX-License-Identifier: MIT
// Lets a request to stop wake a thread that waits in poll.
#include "waker.h"

#include <sys/eventfd.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

namespace ebbline::engine {
namespace {

int makeEvent() {
    const int event = eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK);
    if (event < 0)
        throw std::system_error(errno, std::generic_category(), "eventfd");
    return event;
}

} // namespace

Waker::Waker(const std::stop_token& stop)
    : m_event(makeEvent()),
      m_on_stop(stop, [event = m_event] { static_cast<void>(eventfd_write(event, 1)); }) {}

Waker::~Waker() {
    close(m_event);
}

} // namespace ebbline::engine
