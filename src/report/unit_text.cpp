// SPDX-License-Identifier: MIT
// A fitted unit in words and as a catalogue.
#include "sheet.h"

#include "ebbline/file.h"
#include "ebbline/text.h"
#include "ebbline/unit_telling.h"
#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <iterator>

namespace ebbline::report {
namespace {

using text::fixed;
using text::number;

constexpr std::size_t label_width = 44;
constexpr std::size_t column = 11;

/// What stays an estimate, and how one gets it; the voltage goes into the braces.
struct Measurement {
    const char* keys;
    const char* how;
};
constexpr std::array<Measurement, 9> measurements{
    {{"capacitor_uf, esr_mohm",
      phrase("printed on the input capacitor; its series resistance by a component tester")},
     {"standby_w, fan_w",
      phrase("an ammeter in the plus wire while it is not called, then in the fan's own lead")},
     {"winding_ohm",
      phrase("plug off the compressor: 1 A through two of its pins, millivolts between them over "
             "it; all three pairs alike")},
     {"motor_constant",
      phrase("an oscilloscope between two motor pins while it coasts down: volts over rad/s")},
     {"position_s, position_a, current_limit_a",
      phrase("a clamp with a recorder round one motor wire, from the call to full speed")},
     {"delay_s, retry_s, stall_s",
      phrase("a stop watch and that clamp: call to first current, and one try to the next")},
     {"filter_s", phrase("a bench supply that dips: the shortest dip at which it gives up")},
     {"build_s, bleed_s",
      phrase("how long the running current rises after a start, and how soon after a stop it "
             "starts again")},
     {"rest_bar, suction_bar, head_bar",
      phrase("gauges, by people licensed for refrigerant; else leave them")}}};

class Writer {
public:
    explicit Writer(const UnitFit& fit) : m_fit(fit), m_asked(fit.asked) {}

    std::string write() {
        m_sheet.addLine(words("A {} V unit from five numbers", text::figure(m_asked.nominal_v)));
        addRow("", words("asked"), words("reached"));
        addRow(words("Cut-out"), volts(m_asked.cut_out_v), volts(cutOut()));
        addRow(words("Cut-in"), volts(m_asked.cut_in_v), volts(cutIn()));
        addRow(words("Running current at {} V", fixed(m_fit.running_at_v, 2)),
               amps(m_asked.running_a),
               amps(m_fit.running_a));
        addRow(words("Highest start current from {} V", fixed(m_fit.rest_v, 2)),
               amps(m_asked.start_a),
               amps(m_fit.start_a));
        addTurned();
        addEstimates();
        return m_sheet.text();
    }

private:
    static std::string volts(double value) { return words("{} V", fixed(value, 2)); }
    static std::string amps(double value) { return words("{} A", fixed(value, 3)); }

    [[nodiscard]] bool isOn24() const { return m_asked.nominal_v > 18; }
    [[nodiscard]] double cutOut() const {
        return isOn24() ? m_fit.unit.cut_out_24_v : m_fit.unit.cut_out_v;
    }
    [[nodiscard]] double cutIn() const {
        return isOn24() ? m_fit.unit.cut_in_24_v : m_fit.unit.cut_in_v;
    }

    void addRow(const std::string& label, const std::string& asked, const std::string& reached) {
        std::string line = label;
        line.append(label_width - std::min(label_width, text::width(line)), ' ');
        for (const std::string& cell : {asked, reached})
            line.append(column - std::min(column, text::width(cell)), ' ').append(cell);
        m_sheet.addLine(line);
    }

    void addTurned() {
        m_sheet.addLine("");
        m_sheet.addLine(words("Fitted by simulation, on a supply that does not give way"));
        m_sheet.add(words("  displacement_cm3 {}", text::figure(m_fit.unit.displacement_cm3)),
                    words("by the running current, at the pressures of steady running"));
        m_sheet.add(words("  spin_up_s {}", text::figure(m_fit.unit.spin_up_s)),
                    words("by the highest start current, from a full lead-acid battery's rest "
                          "voltage"));
    }

    void addEstimates() {
        m_sheet.addLine("");
        m_sheet.addLine(words(
            "All else is an estimate, scaled from {} by power and voltage; how one measures it",
            study::fitted_from));
        for (const auto& [keys, how] : measurements)
            m_sheet.add(fmt::format("  {}", keys), words(how));
        m_sheet.addLine(words("A measured value takes the place of the estimate in the file."));
    }

    const UnitFit& m_fit;
    const UnitFigures& m_asked;
    Sheet m_sheet{label_width};
};

/// Every other key that a circuit has.
std::vector<std::string> remaining(const std::vector<file::KeyGroup>& groups) {
    std::vector<std::string> names;
    for (const installation::Key& key : installation::keys()) {
        const auto has = [&](const file::KeyGroup& group) {
            return std::ranges::count(group.keys, key.name) > 0;
        };
        if (key.kind == "controller" && key.in_circuit && std::ranges::none_of(groups, has))
            names.emplace_back(key.name);
    }
    return names;
}

} // namespace

std::string writeFit(const UnitFit& fit) {
    return Writer(fit).write();
}

std::string writeUnit(const UnitFit& fit, const std::string& id) {
    const UnitFigures& asked = fit.asked;
    const bool on_24_v = asked.nominal_v > 18;
    file::CatalogueEntry entry{.part = {.id = id, .body = fit.unit}, .certainty = "measured"};
    entry.source = fmt::format(
        "five numbers measured: nominal {} V, cut-out {} V, cut-in {} V, highest start current {} "
        "A, running current {} A at {} V; the rest ESTIMATE, scaled from {}",
        number(asked.nominal_v),
        number(asked.cut_out_v),
        number(asked.cut_in_v),
        number(asked.start_a),
        number(asked.running_a),
        number(fit.running_at_v),
        study::fitted_from);
    entry.groups = {
        {"Measured",
         {"nominal_v",
          on_24_v ? "cut_out_24_v" : "cut_out_v",
          on_24_v ? "cut_in_24_v" : "cut_in_v"}},
        {"Fitted by simulation to the two currents", {"displacement_cm3", "spin_up_s"}}};
    entry.groups.push_back(
        {fmt::format("ESTIMATE, scaled from {}", study::fitted_from), remaining(entry.groups)});
    return file::writeCatalogue(entry);
}

} // namespace ebbline::report
