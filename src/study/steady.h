// SPDX-License-Identifier: MIT
// Steady voltages and currents of a whole network, without inductances and capacitors.
#pragma once

#include "characteristics.h"

#include <vector>

namespace ebbline::study {

/// What holds at one moment.
struct Moment {
    std::vector<double> charges; ///< of every battery, 0 to 1
    Switches switches;           ///< by element
    bool running = false;        ///< the judged fridge
    bool flat = false;           ///< neither the fridge nor other loads draw anything
    bool operator==(const Moment&) const = default;
};

/// What flows then.
struct Flow {
    double fridge_v = 0;
    double fridge_a = 0;
    double loads_a = 0;            ///< other loads and controllers
    double charger_a = 0;          ///< out of charging sources
    std::vector<double> battery_a; ///< out of every battery
    int opens = -1;                ///< element that does not hold this current for long; -1: none
};

/// Solves for the node voltages: conductances by node, Newton's method for what is not linear.
class Steady {
public:
    Steady(const Network& network, const Characteristics& characteristics);

    [[nodiscard]] Flow solve(const Moment& moment);

private:
    /// A current from node to node at the present voltage, and its slope.
    struct Branch {
        int from = 0;
        int to = 0;
        double amps = 0;
        double siemens = 0;
    };

    void settle(const Moment& moment, bool consumers);
    [[nodiscard]] double step(const Moment& moment, bool consumers, double share);
    void addBranch(const Branch& branch);
    [[nodiscard]] Branch deviceAt(std::size_t element, const Moment& moment, bool consumers) const;
    [[nodiscard]] double ohmOf(std::size_t element) const;
    [[nodiscard]] Branch batteryAt(std::size_t element, const Moment& moment) const;
    [[nodiscard]] Branch chargerAt(std::size_t element) const;
    [[nodiscard]] Branch consumerAt(std::size_t element, bool running) const;
    [[nodiscard]] double drawn(std::size_t element, double volts, bool running) const;
    [[nodiscard]] double between(std::size_t element) const;
    [[nodiscard]] int rowOf(int node) const;
    [[nodiscard]] Flow read(const Moment& moment) const;
    [[nodiscard]] bool holds(std::size_t element, double amps) const;
    [[nodiscard]] bool solveLinear();

    const Network& m_network;
    const Characteristics& m_characteristics;
    std::vector<std::size_t> m_batteries;
    std::vector<int> m_rows; ///< of each node among the unknowns; -1: reference, or no one asks
    std::vector<double> m_volts;
    std::vector<double> m_currents; ///< of fuses and breakers, by element: their heat
    std::vector<double> m_matrix;   ///< rows one after another
    std::vector<double> m_right;
    std::size_t m_size = 0;
};

} // namespace ebbline::study
