// SPDX-License-Identifier: MIT
// A stream of starts: each case is a run, and where the cut-out acts a second one.
#include "ebbline/many.h"

#include "ebbline/error.h"

#include <deque>
#include <utility>

namespace ebbline::study {
namespace {

/// A case from when its circuit is built until its row is taken.
struct Open {
    Row row;
    Network network;
    Netlist netlist; ///< of the run that is out or comes next
    std::optional<Start> start;
    bool is_done = false;
};

class Stream {
public:
    Stream(const Installation& installation,
           const Models& models,
           const Cases& cases,
           const ManySettings& settings,
           const std::function<void(const Row&)>& take)
        : m_installation(installation), m_models(models), m_cases(cases), m_settings(settings),
          m_take(take), m_next(settings.first) {}

    /// A twin that waits, else the next case whose circuit can be built.
    [[nodiscard]] std::optional<Job> next() {
        if (!m_twins.empty()) {
            Open* twin = m_twins.front();
            m_twins.pop_front();
            return send(*twin);
        }
        while (m_next < m_cases.size()) {
            Open& open = m_open.emplace_back();
            open.row.what = m_cases.at(m_next++);
            if (attempt(open, [&] { begin(open); }))
                return send(open);
            deliver();
        }
        return std::nullopt;
    }

    void settle(Solution solution) {
        Open& open = *m_out.front();
        m_out.pop_front();
        if (attempt(open, [&] { read(open, std::move(solution)); }) && !open.is_done)
            m_twins.push_back(&open);
        deliver();
    }

private:
    [[nodiscard]] Job send(Open& open) {
        m_out.push_back(&open);
        return open.netlist.job;
    }

    /// Whether it went well; else the row says why not.
    template <class Step>
    [[nodiscard]] static bool attempt(Open& open, const Step& step) {
        try {
            step();
            return true;
        } catch (const SceneError& error) {
            open.row.error = error.problems().front().message;
        } catch (const EngineError& error) {
            const std::string text = error.what(); // the simulator's own messages follow
            open.row.error = text.substr(0, text.find('\n'));
        }
        open.is_done = true;
        return false;
    }

    [[nodiscard]] Netlist circuit(const Network& network, bool held_off) const {
        const Accuracy accuracy = m_settings.accuracy == Accuracy::Draft
                                      ? draftAccuracy(network.installation)
                                      : m_settings.accuracy;
        return netlist::build(
            network, m_models, {.accuracy = accuracy, .held_off = held_off, .attempts = 1});
    }

    void begin(Open& open) const {
        const Installation installation =
            installation::apply(m_installation, open.row.what.changes);
        open.network = network::reduce(network::build(installation, m_models.catalogues));
        if (open.network.loop)
            open.row.loop_ohm = network::loopOhm(open.network);
        open.netlist = circuit(open.network, false);
    }

    void read(Open& open, Solution solution) const {
        Start start = start::read(requireSolved(std::move(solution)), open.netlist);
        if (open.start)
            judge(open, *open.start, &start);
        else if (start.outcome != Outcome::Trips)
            judge(open, start, nullptr);
        else {
            open.start = std::move(start);
            open.netlist = circuit(open.network, true);
        }
    }

    static void judge(Open& open, const Start& start, const Start* held_off) {
        Row& row = open.row;
        row.outcome = start.outcome;
        row.verdict = verdict::judge(open.network.installation, start, held_off);
        row.lowest_v = start.lowest_v;
        row.lowest_at_s = start.lowest_at_s;
        row.sensed_lowest_v = start.sensed_lowest_v;
        row.inrush_a = start.inrush_a;
        row.peak_a = start.peak_a;
        row.running_a = start.running_a;
        row.running_v = start.running_v;
        open.is_done = true;
    }

    void deliver() {
        while (!m_open.empty() && m_open.front().is_done) {
            m_take(m_open.front().row);
            m_open.pop_front();
        }
    }

    const Installation& m_installation;
    const Models& m_models;
    const Cases& m_cases;
    const ManySettings& m_settings;
    const std::function<void(const Row&)>& m_take;
    std::size_t m_next;
    std::deque<Open> m_open;   ///< in the order of the cases; stays where it is while it grows
    std::deque<Open*> m_out;   ///< in the order of the jobs
    std::deque<Open*> m_twins; ///< whose second run comes next
};

} // namespace

bool runMany(Engine& engine,
             const Installation& installation,
             const Models& models,
             const Cases& cases,
             const ManySettings& settings,
             const std::function<void(const Row&)>& take,
             const std::stop_token& stop) {
    Stream stream(installation, models, cases, settings, take);
    return engine.stream([&] { return stream.next(); },
                         [&](Solution solution) { stream.settle(std::move(solution)); },
                         stop);
}

} // namespace ebbline::study
