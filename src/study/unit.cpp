// SPDX-License-Identifier: MIT
// A controller from five numbers: bisection with runs of the real circuit.
#include "ebbline/unit.h"

#include "bench.h"

#include "ebbline/engine.h"
#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <cmath>
#include <functional>
#include <utility>

namespace ebbline::study {
namespace {

constexpr double block_v = 12.65; // a full flooded block at rest; common practice, from memory
constexpr double largest_a = 200;
constexpr double smallest = 0.1;    // times the machine it is fitted from; a sixth to ten times its
constexpr double largest = 10;      // 50 W: no farther than its proportions can be believed
constexpr double tolerance = 0.002; // of a current that counts as reached; 1 % is promised

[[noreturn]] void refuse(const std::string& message) {
    throw SceneError({Problem{.message = message}});
}

std::string toAmps(double value) {
    return text::fixed(value, 2);
}

/// A quantity that rises with what is turned; nothing where it is turned too far.
using Turned = std::function<std::optional<double>(double)>;

struct Range {
    double low = 0;
    double high = 0;
};

/// Where the quantity reaches `wanted`, by halving the range on a logarithmic scale. Ends at the
/// last setting that gives a value where none reaches it.
double findSetting(const Turned& turned, Range range, double wanted) {
    constexpr double narrow = 1.0002;
    while (range.high / range.low > narrow) {
        const double middle = std::sqrt(range.low * range.high);
        const auto value = turned(middle);
        (value && *value < wanted ? range.low : range.high) = middle;
    }
    return range.low;
}

/// Four digits are more than five measured numbers are worth.
double rounded(double value) {
    const double places = 3 - std::floor(std::log10(value));
    return places < 0 ? std::round(value)
                      : std::round(value * std::pow(10, places)) / std::pow(10, places);
}

/// The same machine wound for 24 V: the same powers at twice the volts, half the amperes, four
/// times the ohms and henries.
Controller woundFor24(Controller unit) {
    unit.motor_constant *= 2;
    for (double* ohms : {&unit.winding_ohm, &unit.winding_uh, &unit.esr_mohm, &unit.input_mohm})
        *ohms *= 4;
    unit.capacitor_uf /= 4;
    for (double* amps : {&unit.position_a, &unit.current_limit_a, &unit.speed_gain})
        *amps /= 2;
    return unit;
}

/// A machine of so many times the power at the same voltage, speed and pressures: as many of the
/// smaller side by side. Electronics and fan stay.
Controller grown(Controller unit, double times) {
    for (double* more : {&unit.displacement_cm3,
                         &unit.position_a,
                         &unit.current_limit_a,
                         &unit.speed_gain,
                         &unit.capacitor_uf,
                         &unit.inertia,
                         &unit.friction})
        *more = rounded(*more * times);
    for (double* less : {&unit.winding_ohm, &unit.winding_uh, &unit.esr_mohm, &unit.input_mohm})
        *less = rounded(*less / times);
    unit.bore_mm = rounded(unit.bore_mm * std::cbrt(times));
    return unit;
}

class Fitter {
public:
    Fitter(Engine& engine, const UnitFigures& figures, const Models& models)
        : m_engine(engine), m_models(models) {
        m_fit.asked = figures;
        m_fit.running_at_v = figures.running_at_v.value_or(figures.nominal_v);
        m_fit.rest_v = figures.nominal_v / 12 * block_v;
        m_about.nominal_v = figures.nominal_v;
        m_about.subject = "unit";
    }

    UnitFit fit(const Progress& progress) {
        check();
        progress(words("fitting the displacement to the running current"));
        scale();
        fitRunning();
        progress(words("fitting the spin-up to the highest start current"));
        fitStart();
        return m_fit;
    }

private:
    void check() const {
        const UnitFigures& asked = m_fit.asked;
        if (asked.nominal_v != 12 && asked.nominal_v != 24)
            refuse(words("the nominal voltage is {} V, expected 12 or 24",
                         text::figure(asked.nominal_v)));
        const bool on_24_v = asked.nominal_v > 18;
        checkRange(on_24_v ? "cut_out_24_v" : "cut_out_v", asked.cut_out_v);
        checkRange(on_24_v ? "cut_in_24_v" : "cut_in_v", asked.cut_in_v);
        if (asked.cut_in_v <= asked.cut_out_v)
            refuse(words("the cut-in is {} V, expected more than the cut-out, {} V",
                         text::figure(asked.cut_in_v),
                         text::figure(asked.cut_out_v)));
        if (asked.cut_in_v >= m_fit.rest_v)
            refuse(words("the cut-in is {} V, and a full lead-acid battery rests at {} V: it would "
                         "never be powered up",
                         text::figure(asked.cut_in_v),
                         text::figure(m_fit.rest_v)));
        checkCurrents();
    }

    void checkCurrents() const {
        const UnitFigures& asked = m_fit.asked;
        checkAmps(asked.running_a);
        checkAmps(asked.start_a);
        if (asked.start_a < asked.running_a)
            refuse(words("the highest start current is {} A, expected no less than the running "
                         "current, {} A",
                         text::figure(asked.start_a),
                         text::figure(asked.running_a)));
        const double highest_v = 16 * asked.nominal_v / 12; // beyond a battery on charge
        if (!(m_fit.running_at_v >= asked.cut_out_v && m_fit.running_at_v <= highest_v))
            refuse(words("the running current was measured at {} V, expected {} to {}",
                         text::figure(m_fit.running_at_v),
                         text::figure(asked.cut_out_v),
                         text::figure(highest_v)));
    }

    static void checkRange(const char* name, double volts) {
        if (const auto misfit = installation::findMisfit(
                *installation::findKey("controller", name), volts, "'" + std::string(name) + "'"))
            refuse(*misfit);
    }

    static void checkAmps(double amps) {
        if (!(amps > 0 && amps < largest_a))
            refuse(words("a current is {} A, expected more than 0 and less than {}",
                         text::figure(amps),
                         text::figure(largest_a)));
    }

    [[nodiscard]] Controller base() const {
        const auto& units = m_models.catalogues.parts;
        const auto of_kind = units.find("controller");
        if (of_kind == units.end() || !of_kind->second.contains(fitted_from))
            refuse(
                words("no controller '{}' in the models: a unit is fitted from it", fitted_from));
        Part part{.id = "unit", .body = Controller{}};
        for (const auto& [name, value] : of_kind->second.at(fitted_from))
            installation::set(part, *installation::findKey("controller", name), value);
        return std::get<Controller>(part.body);
    }

    /// The machine in its voltage and of about the power, with the thresholds asked for.
    void scale() {
        const UnitFigures& asked = m_fit.asked;
        Controller unit = base();
        unit.nominal_v = asked.nominal_v;
        if (asked.nominal_v > 18) {
            unit = woundFor24(unit);
            unit.cut_out_24_v = asked.cut_out_v;
            unit.cut_in_24_v = asked.cut_in_v;
        } else {
            unit.cut_out_v = asked.cut_out_v;
            unit.cut_in_v = asked.cut_in_v;
        }
        const double beside_a = (unit.standby_w + unit.fan_w) / m_fit.running_at_v;
        const double base_a = runningAmps(unit).value_or(0);
        const double times = (asked.running_a - beside_a) / (base_a - beside_a);
        if (!(times >= smallest && times <= largest))
            refuse(words("a running current of {} A at {} V is out of reach: expected {} A, of "
                         "which electronics and fan take {} A, to {} A",
                         text::figure(asked.running_a),
                         text::figure(m_fit.running_at_v),
                         toAmps(beside_a + smallest * (base_a - beside_a)),
                         toAmps(beside_a),
                         toAmps(beside_a + largest * (base_a - beside_a))));
        m_fit.unit = grown(unit, times);
    }

    [[nodiscard]] Start run(const Netlist& netlist) const {
        return start::read(requireSolved(std::move(m_engine.run({&netlist.job, 1}).front())),
                           netlist);
    }

    [[nodiscard]] std::optional<double> runningAmps(const Controller& unit) const {
        const Part part{.id = m_about.subject, .body = unit};
        const Start start = run(steadyRun(m_about, m_models, part, m_fit.running_at_v));
        return start.running_a;
    }

    /// At the accuracy of what `ebbline start` says.
    [[nodiscard]] std::optional<double> startAmps(Controller unit) const {
        unit.cut_in_v = unit.cut_in_24_v = 1;
        const Part part{.id = m_about.subject, .body = unit};
        const Start start = run(
            netlist::build(bench(m_about, stiffSupply(m_fit.rest_v), ElementKind::Charger, {part}),
                           m_models,
                           {.held_off = true, .attempts = 1}));
        return start.reached_speed ? start.peak_a : std::nullopt;
    }

    void fitRunning() {
        const double about_cm3 = m_fit.unit.displacement_cm3;
        const Turned turned = [this](double displacement_cm3) {
            Controller unit = m_fit.unit;
            unit.displacement_cm3 = displacement_cm3;
            return runningAmps(unit);
        };
        const double wanted = m_fit.asked.running_a;
        m_fit.unit.displacement_cm3 =
            rounded(findSetting(turned, {about_cm3 / 3, about_cm3 * 3}, wanted));
        m_fit.running_a = runningAmps(m_fit.unit).value_or(0);
        if (std::abs(m_fit.running_a - wanted) > tolerance * wanted)
            refuse(words("a running current of {} A at {} V is out of reach: the motor of {} does "
                         "not turn so fast at this voltage",
                         text::figure(wanted),
                         text::figure(m_fit.running_at_v),
                         fitted_from));
    }

    /// A faster spin-up draws more, until the motor current is limited; a slow one no more than
    /// running does.
    void fitStart() {
        constexpr double slowest_s = 2;
        constexpr double fastest_s = 0.1;
        const Range range{1 / slowest_s, 1 / fastest_s};
        const Turned turned = [this](double per_s) {
            Controller unit = m_fit.unit;
            unit.spin_up_s = 1 / per_s;
            return startAmps(unit);
        };
        const double wanted = m_fit.asked.start_a;
        m_fit.unit.spin_up_s = rounded(1 / findSetting(turned, range, wanted));
        m_fit.start_a = startAmps(m_fit.unit).value_or(0);
        if (std::abs(m_fit.start_a - wanted) <= tolerance * wanted)
            return;
        refuse(words("a highest start current of {} A is out of reach: with this running current "
                     "and the motor of {} it lies between {} and {} A",
                     text::figure(wanted),
                     fitted_from,
                     toAmps(turned(range.low).value_or(0)),
                     toAmps(turned(range.high).value_or(0))));
    }

    Engine& m_engine;
    const Models& m_models;
    Installation m_about; ///< what the bench is like
    UnitFit m_fit;
};

} // namespace

UnitFit fitUnit(Engine& engine,
                const UnitFigures& figures,
                const Models& models,
                const Progress& progress) {
    return Fitter(engine, figures, models).fit(progress);
}

} // namespace ebbline::study
