// SPDX-License-Identifier: MIT
// Small circuits of a few cards, solved by the engine with the program's own models.
#include "small_circuit.h"

#include "runs.h"

#include "ebbline/file.h"
#include "ebbline/text.h"

#include <algorithm>

namespace ebbline::small_circuit {

Solved solve(const Circuit& circuit) {
    Job job{.vectors = circuit.vectors, .stop_s = circuit.stop_s, .highest_v = circuit.highest_v};
    const std::string step = text::number(circuit.step_s);
    job.circuit = "* a few cards\n.options method=trap pivrel=0.5 reltol=1e-6 abstol=1e-9 "
                  "vntol=1e-9 chgtol=" +
                  text::number(circuit.chgtol) + "\n" + circuit.cards + ".save";
    for (const std::string& vector : circuit.vectors)
        job.circuit += " " + vector;
    job.circuit += "\n.tran " + step + " " + text::number(circuit.stop_s) + " 0 " + step + " uic\n";
    for (const std::string& model : circuit.models)
        job.circuit += file::embeddedModels().circuits.at(model);
    job.circuit += ".end\n";
    // One pool for all: a worker forgets each job.
    static const auto pool = runs::makePool(1);
    return study::requireSolved(pool->run({&job, 1}).front());
}

double last(const Solved& solved, std::size_t vector) {
    return solved.vectors[vector].back();
}

std::pair<double, double> peakOf(const Solved& solved, std::size_t vector) {
    const auto& y = solved.vectors[vector];
    const auto& t = solved.time_s;
    const auto i = static_cast<std::size_t>(std::ranges::max_element(y) - y.begin());
    if (i == 0 || i + 1 == y.size())
        return {y[i], t[i]};
    const double a = (y[i] - y[i - 1]) / (t[i] - t[i - 1]);
    const double b = (y[i + 1] - y[i]) / (t[i + 1] - t[i]);
    const double curve = (b - a) / (t[i + 1] - t[i - 1]);
    const double peak_s = (t[i - 1] + t[i]) / 2 - a / (2 * curve);
    return {y[i - 1] + (peak_s - t[i - 1]) * (a + curve * (peak_s - t[i])), peak_s};
}

double squareIntegral(const Solved& solved, std::size_t vector) {
    const auto& y = solved.vectors[vector];
    double sum = 0;
    for (std::size_t i = 1; i < y.size(); ++i)
        sum += (solved.time_s[i] - solved.time_s[i - 1]) *
               (y[i] * y[i] + y[i] * y[i - 1] + y[i - 1] * y[i - 1]) / 3;
    return sum;
}

} // namespace ebbline::small_circuit
