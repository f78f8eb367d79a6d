// SPDX-License-Identifier: MIT
// Several workers, one poll loop: jobs out, solutions in, in job order.
#include "accept.h"
#include "in_order.h"
#include "lane.h"
#include "waker.h"

#include "ebbline/engine.h"

#include <poll.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <deque>
#include <memory>
#include <system_error>
#include <utility>

namespace ebbline::engine {
namespace {

using Clock = Lane::Clock;

/// Jobs that are held per worker, waiting or done and waiting for an earlier one.
constexpr std::size_t held_per_worker = 8;

/// A job from when it is asked for until its solution is taken.
struct Order {
    Job job;
    std::size_t number = 0; ///< in its stream
    int losses = 0;
    std::size_t orders_tried = 0; ///< of the other ones
    bool is_out = false;
    std::optional<Solution> solution;
};

class Pool final : public Engine {
public:
    explicit Pool(PoolSettings settings) : m_settings(std::move(settings)) {
        if (m_settings.program.empty())
            m_settings.program = "/proc/self/exe";
        for (int i = 0; i < std::max(1, m_settings.workers); ++i)
            m_lanes.emplace_back(m_settings);
    }

    [[nodiscard]] bool
    stream(const Next& next, const Take& take, const std::stop_token& stop) override {
        begin();
        const Waker waker(stop);
        for (;;) {
            if (stop.stop_requested())
                return false;
            feed(next);
            if (handOut(m_orders, take))
                continue; // which may have made room, or given `next` something to ask for
            if (m_orders.empty())
                return true;
            serve(waker.pollEntry());
        }
    }

private:
    /// A stream that was stopped, or left by an exception, may have left its jobs behind.
    void begin() {
        for (Lane& lane : m_lanes)
            if (lane.isBusy())
                lane.abandon();
        m_orders.clear();
        m_begun = 0;
    }

    /// A job for every worker that has none.
    void feed(const Next& next) {
        for (Lane& lane : m_lanes)
            while (!lane.isBusy()) {
                Order* order = findOrder(next);
                if (order == nullptr)
                    return;
                order->is_out = true;
                order->solution = lane.give(order->number, order->job);
            }
    }

    /// One whose worker was lost, else a new one.
    Order* findOrder(const Next& next) {
        const auto lost = std::ranges::find(m_orders, false, &Order::is_out);
        if (lost != m_orders.end())
            return &*lost;
        if (m_orders.size() >= held_per_worker * m_lanes.size())
            return nullptr;
        auto job = next();
        if (!job)
            return nullptr;
        m_orders.push_back({.job = std::move(*job), .number = m_begun++});
        return &m_orders.back();
    }

    /// Waits for news and takes it in.
    void serve(const pollfd& stop) {
        std::vector<Lane*> busy;
        std::vector<pollfd> entries;
        for (Lane& lane : m_lanes)
            if (lane.isBusy()) {
                busy.push_back(&lane);
                entries.push_back(lane.pollEntry());
            }
        entries.push_back(stop);
        if (poll(entries.data(), entries.size(), waitMilliseconds(busy)) < 0 && errno != EINTR)
            throw std::system_error(errno, std::generic_category(), "poll");
        for (std::size_t i = 0; i < busy.size(); ++i)
            settle(*busy[i], entries[i].revents);
    }

    void settle(Lane& lane, short events) {
        Order& order = m_orders[lane.index() - m_orders.front().number];
        auto solution = lane.advance(events);
        if (!solution && Clock::now() >= lane.deadline())
            solution = lane.timeOut();
        if (!solution)
            return;
        if (const auto* crashed = std::get_if<Crashed>(&*solution)) {
            ++order.losses;
            if (m_settings.on_loss)
                m_settings.on_loss({order.number, order.losses, crashed->reason});
            if (order.losses < m_settings.attempts) {
                order.is_out = false;
                return;
            }
        }
        if (std::holds_alternative<TimedOut>(*solution) && takeOtherOrder(order))
            return;
        order.solution = std::move(solution);
    }

    /// A circuit that its worker did not come to an end with may do so in another order.
    [[nodiscard]] static bool takeOtherOrder(Order& order) {
        std::vector<std::string> orders = otherOrders(order.job.circuit);
        if (order.orders_tried >= orders.size())
            return false;
        order.job.circuit = std::move(orders[order.orders_tried++]);
        order.is_out = false;
        return true;
    }

    [[nodiscard]] static int waitMilliseconds(const std::vector<Lane*>& busy) {
        auto first = Clock::now() + std::chrono::minutes(1);
        for (const Lane* lane : busy)
            first = std::min(first, lane->deadline());
        const auto left = std::chrono::ceil<std::chrono::milliseconds>(first - Clock::now());
        return static_cast<int>(std::max<long>(left.count(), 0));
    }

    PoolSettings m_settings;
    std::deque<Lane> m_lanes;
    std::deque<Order> m_orders; ///< numbered without a gap
    std::size_t m_begun = 0;    ///< jobs of this stream so far
};

} // namespace

std::unique_ptr<Engine> makePool(PoolSettings settings) {
    return std::make_unique<Pool>(std::move(settings));
}

} // namespace ebbline::engine
