// SPDX-License-Identifier: MIT
// The loop budget by bisection.
#include "budget.h"

#include <algorithm>

namespace ebbline::study {
namespace {

constexpr double least_resolution_ohm = 5e-4;

/// How closely a limit near `ohm` is found: what drafts are off by is more of a large loop.
double resolution(double ohm) {
    return std::max(least_resolution_ohm, 1e-3 * ohm);
}

// Draft and final runs differ by a few millivolts, so by less than this share of the loop.
constexpr double draft_trust = 0.02;
constexpr double largest_ohm = 1000;

double fixedOhm(const Network& network) {
    double ohm = 0;
    if (!network.loop)
        return ohm;
    for (const auto& way : {network.loop->out, network.loop->back})
        for (const Step& step : way)
            if (const Element& element = network.elements[static_cast<std::size_t>(step.element)];
                !element.linear)
                ohm += element.ohm;
    return ohm;
}

/// Starts below `good`, does not at `bad`.
struct Bracket {
    double good_ohm = 0;
    double bad_ohm = 0;
};

class Search {
public:
    Search(Engine& engine,
           const Network& network,
           const Models& models,
           std::optional<double> spare_now_v)
        : m_engine(engine), m_network(network), m_models(models),
          m_loop_ohm(network::loopOhm(network)), m_fixed_ohm(fixedOhm(network)),
          m_spare_now_v(spare_now_v) {}

    /// Volts by which the first attempt stays above the cut-out with a loop of `ohm` in all;
    /// nothing when it does not start.
    [[nodiscard]] std::optional<double> spare(double ohm, Accuracy accuracy) {
        const Netlist netlist =
            netlist::build(m_network,
                           m_models,
                           {.accuracy = accuracy, .attempts = 1, .loop_scale = scaleFor(ohm)});
        const Solved solved = requireSolved(m_engine.run({&netlist.job, 1}).front());
        const Start start = start::read(solved, netlist);
        if (start.outcome != Outcome::Starts)
            return std::nullopt;
        return verdict::judge(m_network.installation, start, nullptr).headroom_v;
    }

    [[nodiscard]] bool starts(double ohm, Accuracy accuracy) {
        return spare(ohm, accuracy).has_value();
    }

    /// The least loop there can be: next to nothing but fuses and contacts.
    [[nodiscard]] double least() const { return m_fixed_ohm + least_resolution_ohm; }

    [[nodiscard]] double narrow(Bracket bracket, double width_ohm, Accuracy accuracy) {
        while (bracket.bad_ohm - bracket.good_ohm > width_ohm) {
            const double middle_ohm = (bracket.good_ohm + bracket.bad_ohm) / 2;
            (starts(middle_ohm, accuracy) ? bracket.good_ohm : bracket.bad_ohm) = middle_ohm;
        }
        return bracket.good_ohm;
    }

    /// A loop just below the limit by drafts; nothing when it starts at no resistance.
    [[nodiscard]] std::optional<double> sketch() {
        const bool starts_now = m_spare_now_v.has_value();
        double good_ohm = starts_now ? m_loop_ohm : least();
        double bad_ohm = starts_now ? std::max(2 * m_loop_ohm, 0.01) : m_loop_ohm;
        if (!starts_now && !starts(least(), Accuracy::Draft))
            return std::nullopt;
        while (starts_now && bad_ohm < largest_ohm && starts(bad_ohm, Accuracy::Draft)) {
            good_ohm = bad_ohm;
            bad_ohm *= 2;
        }
        const double width_ohm = std::max(draft_trust * bad_ohm, least_resolution_ohm);
        return narrow({good_ohm, bad_ohm}, width_ohm, Accuracy::Draft);
    }

    /// Where nothing would be left to spare in final runs, if resistance takes of it what it takes
    /// in drafts just below `sketched_ohm`.
    [[nodiscard]] std::optional<double> foresee(double sketched_ohm) {
        const double below_ohm = std::max((1 - draft_trust) * sketched_ohm, least());
        const auto below_v = spare(below_ohm, Accuracy::Draft);
        const auto sketched_v = spare(sketched_ohm, Accuracy::Draft);
        // What drafts are off by is known where the final run is: here as it is, or where one
        // starts.
        const double known_ohm = m_spare_now_v ? m_loop_ohm : below_ohm;
        const auto final_v = m_spare_now_v ? m_spare_now_v : spare(known_ohm, Accuracy::Final);
        const auto draft_v = m_spare_now_v ? spare(known_ohm, Accuracy::Draft) : below_v;
        if (!below_v || !sketched_v || !final_v || !draft_v || *below_v <= *sketched_v)
            return std::nullopt;
        const double left_v = *below_v + *final_v - *draft_v;
        return below_ohm + left_v * (sketched_ohm - below_ohm) / (*below_v - *sketched_v);
    }

    /// Final runs confirm both ends of the neighbourhood, or move them until they hold.
    [[nodiscard]] std::optional<double> settle(double sketched_ohm) {
        const auto foreseen_ohm = foresee(sketched_ohm);
        const double middle_ohm = foreseen_ohm.value_or(sketched_ohm);
        double half_width_ohm =
            foreseen_ohm ? 0.45 * resolution(middle_ohm) // narrower than it, rounding or not
                         : std::max(draft_trust * sketched_ohm / 2, least_resolution_ohm);
        Bracket bracket{middle_ohm - half_width_ohm, middle_ohm + half_width_ohm};
        while (!starts(std::max(bracket.good_ohm, least()), Accuracy::Final)) {
            if (bracket.good_ohm <= least())
                return std::nullopt;
            bracket.bad_ohm = bracket.good_ohm;
            bracket.good_ohm -= half_width_ohm *= 2;
        }
        while (bracket.bad_ohm < largest_ohm && starts(bracket.bad_ohm, Accuracy::Final)) {
            bracket.good_ohm = bracket.bad_ohm;
            bracket.bad_ohm += half_width_ohm *= 2;
        }
        return narrow({std::max(bracket.good_ohm, least()), bracket.bad_ohm},
                      resolution(middle_ohm),
                      Accuracy::Final);
    }

private:
    [[nodiscard]] double scaleFor(double ohm) const {
        return (ohm - m_fixed_ohm) / (m_loop_ohm - m_fixed_ohm);
    }

    Engine& m_engine;
    const Network& m_network;
    const Models& m_models;
    double m_loop_ohm;
    double m_fixed_ohm; ///< fuses and switched contacts, which no scale changes
    std::optional<double>
        m_spare_now_v; ///< by the final run as it is; nothing when it does not start
};

} // namespace

std::optional<double> findLoopLimit(Engine& engine,
                                    const Network& network,
                                    const Models& models,
                                    std::optional<double> spare_now_v) {
    Search search(engine, network, models, spare_now_v);
    const auto sketched_ohm = search.sketch();
    return sketched_ohm ? search.settle(*sketched_ohm) : std::nullopt;
}

} // namespace ebbline::study
