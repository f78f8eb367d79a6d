// SPDX-License-Identifier: MIT
// From vectors to one start: figures, outcome, ledger.
#include "events.h"
#include "frames.h"
#include "trace.h"

#include "ebbline/error.h"
#include "ebbline/start.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>

namespace ebbline {

std::string_view nameOf(Outcome outcome) {
    switch (outcome) {
    case Outcome::Starts:
        return "starts";
    case Outcome::Trips:
        return "trips";
    case Outcome::Stalls:
        return "stalls";
    case Outcome::FuseOpens:
        return "fuse-opens";
    case Outcome::NotPowered:
        return "not-powered";
    case Outcome::SupplyLow:
        return "supply-low";
    case Outcome::ThermostatOpen:
        return "thermostat-open";
    case Outcome::Reversed:
        return "reversed";
    case Outcome::WrongVoltage:
        return "wrong-voltage";
    case Outcome::NotDriven:
        return "not-driven";
    }
    return "";
}

std::string_view nameOf(Happening happening) {
    switch (happening) {
    case Happening::SupplyOn:
        return phrase("supply on");
    case Happening::Calls:
        return phrase("thermostat calls");
    case Happening::Positions:
        return phrase("positions");
    case Happening::SpinsUp:
        return phrase("spins up");
    case Happening::FullSpeed:
        return phrase("full speed");
    case Happening::GaveUp:
        return phrase("gave up");
    case Happening::TriesAgain:
        return phrase("tries again");
    case Happening::FuseOpens:
        return phrase("fuse opens");
    }
    return "";
}

std::string_view nameOf(Side side) {
    switch (side) {
    case Side::Source:
        return "source";
    case Side::Out:
        return "out";
    case Side::Back:
        return "back";
    }
    return "";
}

namespace start {
namespace {

constexpr double dead_v = 1; // less than this at the terminals: nothing arrives
constexpr double inrush_s = 0.01;
constexpr double peak_window_s = 1e-3;

bool happened(const Start& start, Happening what) {
    return std::ranges::any_of(start.events,
                               [&](const StartEvent& event) { return event.what == what; });
}

/// Whether the unit is not made for the voltage it finds.
bool isForeign(const Record& record) {
    const Controller& unit = record.controller();
    const double drawn_v = record.netlist().network.installation.nominal_v;
    const double nominal_v = unit.nominal_v > 0 ? unit.nominal_v : drawn_v;
    const double highest_v = nominal_v > 18 ? unit.highest_24_v : unit.highest_v;
    return nominal_v != drawn_v ||
           std::ranges::max(record.vector(record.unit().sensed_v)) > highest_v;
}

/// Why there was no attempt at all.
Outcome whyNoAttempt(const Record& record, const Start& start) {
    if (happened(start, Happening::FuseOpens))
        return Outcome::FuseOpens;
    const auto [least, most] = std::ranges::minmax_element(record.volts());
    if (*least < -dead_v)
        return Outcome::Reversed;
    if (*most < dead_v)
        return Outcome::NotPowered;
    if (isForeign(record))
        return Outcome::WrongVoltage;
    if (std::ranges::max(record.vector(record.unit().good)) < 0.5)
        return Outcome::SupplyLow;
    if (installation::isKeptOff(record.controller()) && happened(start, Happening::Calls))
        return Outcome::NotDriven;
    return Outcome::ThermostatOpen;
}

Outcome judge(const Record& record, const Start& start) {
    if (start.attempts.empty())
        return whyNoAttempt(record, start);
    const Attempt& first = start.attempts.front();
    const bool fuse_opened = std::ranges::any_of(start.events, [&](const StartEvent& event) {
        return event.what == Happening::FuseOpens && event.at_s <= first.end_s;
    });
    if (fuse_opened)
        return Outcome::FuseOpens;
    if (first.stalled)
        return Outcome::Stalls;
    return first.gave_up ? Outcome::Trips : Outcome::Starts;
}

/// Until its end, or until a fuse begins to part: what is left on the terminals then says nothing.
double endOfSupply(const Start& start) {
    constexpr double parting_s = 1e-3;
    const Attempt& first = start.attempts.front();
    for (const StartEvent& event : start.events)
        if (event.what == Happening::FuseOpens && event.at_s > first.begin_s)
            return std::min(event.at_s - parting_s, first.end_s);
    return first.end_s;
}

void readLowest(const Record& record, Start& start) {
    const Range range =
        samplesIn(record.time(), start.attempts.front().begin_s, endOfSupply(start));
    if (range.first >= range.last)
        return;
    const auto lowest = [&](std::span<const double> values) {
        return std::ranges::min_element(values.subspan(range.first, range.last - range.first));
    };
    const auto place = lowest(record.volts());
    const auto index =
        static_cast<std::size_t>(place - record.volts().subspan(range.first).begin()) + range.first;
    start.lowest_v = *place;
    start.lowest_at_s = record.time()[index];
    start.sensed_lowest_v = *lowest(record.vector(record.unit().sensed_v));
    if (record.netlist().network.loop) {
        start.ledger = readLedger(record.solved(), record.netlist(), index);
        start.source_v = start.ledger->source_v;
    }
}

void readCurrents(const Record& record, Start& start) {
    for (const StartEvent& event : start.events)
        if (event.what == Happening::SupplyOn) {
            // Power arrives a little before the terminals have risen far enough to say so.
            const Range range =
                samplesIn(record.time(), event.at_s - inrush_s / 2, event.at_s + inrush_s / 2);
            start.inrush_a =
                std::ranges::max(record.amps().subspan(range.first, range.last - range.first));
            break;
        }
    if (start.attempts.empty())
        return;
    const Attempt& first = start.attempts.front();
    start.peak_a =
        largestMean(record.time(), record.amps(), peak_window_s, first.begin_s, first.end_s);
    const auto speed = record.vector(record.unit().speed);
    const Attempt& last = start.attempts.back();
    const auto running_s = findCrossing(
        record.time(), speed, runningSpeed(record.controller()), true, last.begin_s, last.end_s);
    if (running_s && last.end_s - *running_s >= 1) {
        start.running_a = meanOver(record.time(), record.amps(), last.end_s - 1, last.end_s);
        start.running_v = meanOver(record.time(), record.volts(), last.end_s - 1, last.end_s);
    }
}

Waveform readWaveform(const Record& record) {
    const auto copy = [](std::span<const double> values) {
        return std::vector<double>(values.begin(), values.end());
    };
    return {.time_s = copy(record.time()),
            .volts = copy(record.volts()),
            .sensed = copy(record.vector(record.unit().sensed_v)),
            .amps = copy(record.amps()),
            .speed = copy(record.vector(record.unit().speed))};
}

/// From the scene's time 0 on; before it the power arrives.
std::vector<MeterReading> readMeters(const Record& record, const Start& start) {
    std::vector<MeterReading> readings;
    const Netlist& netlist = record.netlist();
    const Range range = samplesIn(record.time(), 0, record.end());
    for (std::size_t i = 0; i < netlist.network.elements.size(); ++i) {
        if (netlist.network.elements[i].kind != ElementKind::Meter)
            continue;
        const std::vector<double> volts = record.between(netlist.probes[i]);
        const auto from = volts.begin() + static_cast<std::ptrdiff_t>(range.first);
        MeterReading reading{.meter = netlist.network.elements[i].name,
                             .lowest_v = *std::min_element(from, volts.end()),
                             .highest_v = *std::max_element(from, volts.end())};
        if (start.lowest_at_s)
            reading.at_lowest_v = valueAt(record.time(), volts, *start.lowest_at_s);
        readings.push_back(std::move(reading));
    }
    return readings;
}

/// An open contact or a parted fuse turns the last digit of a current into volts. Its own
/// resistance says that it is open: volts over amperes say nothing where the current just passes
/// through zero.
bool conducts(const Solved& solved, const Netlist& netlist, std::size_t index) {
    constexpr double open_ohm = 100;
    const auto is_shut = [&](const Step& step) {
        const int ohms = netlist.probes[static_cast<std::size_t>(step.element)].ohms;
        return ohms < 0 || solved.vectors[static_cast<std::size_t>(ohms)][index] < open_ohm;
    };
    if (!netlist.network.loop)
        return false;
    const SupplyLoop& loop = *netlist.network.loop;
    return std::ranges::all_of(loop.out, is_shut) && std::ranges::all_of(loop.back, is_shut);
}

double worstLedgerError(const Solved& solved, const Netlist& netlist) {
    double worst_v = 0;
    for (std::size_t i = 0; i < solved.time_s.size(); ++i)
        if (conducts(solved, netlist, i))
            worst_v = std::max(worst_v, std::abs(readLedger(solved, netlist, i).error()));
    return worst_v;
}

} // namespace

Start read(const Solved& solved, const Netlist& netlist) {
    EBBLINE_ASSERT(!solved.time_s.empty(), "a solved run has samples");
    const Record record(solved, netlist);
    Start start{.events = findEvents(record), .attempts = findAttempts(record)};
    start.horizon_s = record.end();
    start.outcome = judge(record, start);
    start.retries = std::max(0, static_cast<int>(start.attempts.size()) - 1);
    if (!start.attempts.empty()) {
        readLowest(record, start);
        const Attempt& first = start.attempts.front();
        start.reached_speed = findCrossing(record.time(),
                                           record.vector(record.unit().speed),
                                           runningSpeed(record.controller()),
                                           true,
                                           first.begin_s,
                                           first.end_s)
                                  .has_value();
    }
    readCurrents(record, start);
    if (netlist.network.loop)
        start.ledger_error_v = worstLedgerError(solved, netlist);
    start.meters = readMeters(record, start);
    start.waveform = readWaveform(record);
    start.frames = readFrames(record, start);
    return start;
}

} // namespace start
} // namespace ebbline
