// SPDX-License-Identifier: MIT
// A day of cycling in words: what is taken first, then how long it lasts, then what it rests on.
#include "sheet.h"

#include "ebbline/hours_telling.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::report {
namespace {

using text::fixed;

constexpr double day_s = 24 * 3600.0;

std::string percent(double share) {
    return fixed(100 * share, 0);
}

class Writer {
public:
    explicit Writer(const Hours& hours) : m_hours(hours), m_totals(hours.day.totals) {}

    std::string write() {
        m_sheet.addLine(text::escapeControls(m_hours.network.installation.title));
        m_sheet.addLine(headline());
        m_sheet.addLine("");
        addTaken();
        addRunning();
        addBox();
        addBattery();
        addEnd();
        addStarts();
        addEvents();
        addAssumed();
        return m_sheet.text();
    }

private:
    [[nodiscard]] std::string headline() const {
        if (m_hours.day.never_called)
            return words("The fridge is never called: its box stays cold by itself.");
        if (m_totals.starts == 0)
            return words("The fridge does not run: see below.");
        if (m_hours.cut_out_h || m_hours.flat_h || m_hours.start_fails_h)
            return words("The fridge takes {} Ah a day; on this battery it lasts {} h.",
                         fixed(m_totals.fridge_ah, 1),
                         fixed(lasts(), 1));
        return words("The fridge takes {} Ah a day; the battery lasts for more than {} h.",
                     fixed(m_totals.fridge_ah, 1),
                     fixed(m_hours.looked_at_h, 0));
    }

    [[nodiscard]] double lasts() const {
        double hours_h = m_hours.looked_at_h;
        for (const auto& end : {m_hours.cut_out_h, m_hours.flat_h, m_hours.start_fails_h})
            hours_h = std::min(hours_h, end.value_or(hours_h));
        return hours_h;
    }

    void addTaken() {
        m_sheet.add(words("Taken in 24 h"),
                    words("by the fridge {} Ah ({} Wh), by other loads {} Ah",
                          fixed(m_totals.fridge_ah, 1),
                          fixed(m_totals.fridge_wh, 0),
                          fixed(m_totals.loads_ah, 1)));
        if (m_totals.charged_ah > 0)
            m_sheet.add(words("Charged in 24 h"),
                        words("{} Ah by charging sources, some of it straight to what is on",
                              fixed(m_totals.charged_ah, 1)));
    }

    void addRunning() {
        m_sheet.add(words("Running"),
                    m_totals.starts == 1 ? words("{} % of the time, 1 start a day",
                                                 percent(m_totals.running_s / day_s))
                                         : words("{} % of the time, {} starts a day",
                                                 percent(m_totals.running_s / day_s),
                                                 m_totals.starts));
        if (m_hours.day.overloaded)
            m_sheet.add("",
                        words("it never stops: the box takes in more heat than the compressor "
                              "carries out"));
        if (m_totals.failed_starts > 0)
            m_sheet.add(
                "", words("calls in 24 h that it did not start at: {}", m_totals.failed_starts));
    }

    void addBox() {
        m_sheet.add(
            words("Box"),
            words("{} W of heat come in on average at {} °C outside; the compressor carries "
                  "out {} times its electrical power",
                  fixed(m_totals.heat_in_kj * 1e3 / day_s, 1),
                  text::figure(m_hours.network.installation.surroundings.ambient_c),
                  fixed(m_hours.ambient_cop, 2)));
    }

    void addBattery() {
        m_sheet.add(words("Battery"),
                    words("{} % charged at the beginning, {} % after 24 h",
                          percent(m_totals.first_charge),
                          percent(m_totals.last_charge)));
    }

    void addEnd() {
        const std::string label = words("Cut-out");
        if (m_hours.cut_out_h)
            m_sheet.add(label,
                        words("reached while running after {} h, at {} % charge, if every start "
                              "before succeeds",
                              fixed(m_hours.cut_out_h, 1),
                              percent(m_hours.charge_at_end)));
        else if (m_hours.flat_h)
            m_sheet.add(label,
                        words("not reached before the battery is empty, after {} h, if every start "
                              "before succeeds",
                              fixed(m_hours.flat_h, 1)));
        else
            m_sheet.add(label, words("not reached in {} h", fixed(m_hours.looked_at_h, 0)));
    }

    void addStarts() {
        const std::string label = words("Starts");
        if (m_hours.limits.empty()) {
            if (m_hours.lowest_start_charge)
                m_sheet.add(label,
                            words("succeed down to {} % charge, the last one looked at",
                                  percent(*m_hours.lowest_start_charge)));
            return;
        }
        const StartLimit& limit = m_hours.limits.front();
        const std::string outcome = term(nameOf(limit.outcome));
        m_sheet.add(
            label,
            limit.charge > m_totals.first_charge
                ? words("fail from the beginning, at {} % charge: {}",
                        percent(m_totals.first_charge),
                        outcome)
                : words("begin to fail at {} % charge: {}", fixed(100 * limit.charge, 1), outcome));
        if (m_hours.start_fails_h)
            m_sheet.add(
                "",
                words("the first that fails comes after {} h", fixed(m_hours.start_fails_h, 1)));
        if (m_hours.limits.size() > 1)
            m_sheet.add("",
                        words("with other things switched on: at {} % at the lowest",
                              fixed(100 * m_hours.limits.back().charge, 1)));
    }

    [[nodiscard]] static std::string happeningWords(const DayEvent& event) {
        switch (event.what) {
        case DayHappening::CutOut:
            return words("the voltage falls below the cut-out");
        case DayHappening::BatteryFlat:
            return words("the battery is empty");
        case DayHappening::StartFails:
            return words("a start fails");
        case DayHappening::RunsAgain:
            return words("the fridge runs again");
        case DayHappening::FuseOpens:
            return words("{} opens", event.element);
        }
        return "";
    }

    void addEvents() {
        if (m_hours.day.events.empty())
            return;
        m_sheet.addLine("");
        m_sheet.addLine(words("What happened in 24 h"));
        constexpr std::size_t most = 24;
        for (std::size_t i = 0; i < m_hours.day.events.size() && i < most; ++i) {
            const DayEvent& event = m_hours.day.events[i];
            m_sheet.addLine("  " + words("{:>6} h  {}, battery at {} %",
                                         fixed(event.at_h, 2),
                                         happeningWords(event),
                                         percent(event.charge)));
        }
        if (m_hours.day.events.size() > most)
            m_sheet.addLine("  " + words("and so on"));
    }

    void addAssumed() {
        m_sheet.addLine("");
        m_sheet.addLine(
            words("Assumed: heat into the box, its heat capacity, thermostat band and cooling are "
                  "estimates"));
        m_sheet.addLine(words(
            "unless the scene has measured ones (box_w_per_k, box_kj_per_k, inside_c, band_k, "
            "cop)."));
        m_sheet.addLine(
            words("The ambient temperature stays the same all day; the scene's events repeat every "
                  "day; what"));
        m_sheet.addLine(words(
            "a start takes beyond steady running is left out; a full battery takes no more."));
    }

    const Hours& m_hours;
    const DayTotals& m_totals;
    Sheet m_sheet{18};
};

} // namespace

std::string writeHours(const Hours& hours) {
    return Writer(hours).write();
}

} // namespace ebbline::report
