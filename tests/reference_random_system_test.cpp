// SPDX-License-Identifier: MIT
// Random installations against an independent integration by Boost.Odeint of the equations in
// models/README.md. The ranges they are drawn from stand in random_loops.cpp.
#include "published.h"
#include "random_loops.h"
#include "runs.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <future>
#include <map>

using namespace ebbline;
using published::Certainty;

namespace {

/// A fifth under sanitizers, and then a fifth of each outcome that there must be at least.
constexpr std::uint64_t of_each_kind = runs::isSanitised() ? 14 : 70;
constexpr int least_of_each = runs::isSanitised() ? 10 : 50;

/// Nearer than this to the cut-out the outcome may differ.
constexpr double undecided_v = 5e-3;

/// One installation, run both ways; held off where the cut-out acted.
struct Both {
    std::string name;
    ode::Setup setup;
    Start ours;
    ode::Result theirs;
    std::optional<Start> ours_held;
    std::optional<ode::Result> theirs_held;

    [[nodiscard]] const Start& oursFree() const { return ours_held ? *ours_held : ours; }
    [[nodiscard]] const ode::Result& theirsFree() const {
        return theirs_held ? *theirs_held : theirs;
    }
    /// How far the filtered voltage, held off, stays from the cut-out.
    [[nodiscard]] double margin() const {
        return std::abs(theirsFree().sensed_lowest_v - setup.unit.cut_out_v);
    }
    [[nodiscard]] bool isUndecided() const {
        return theirs.outcome != "stalls" && margin() < undecided_v;
    }
};

/// The largest error of one check, over its bound and as it is.
struct Worst {
    int count = 0;
    int off = 0;
    double share = 0; ///< of the bound
    double error = 0;
    std::string where;

    void add(double error_now, double bound, const std::string& name) {
        ++count;
        const double share_now = std::abs(error_now) / bound;
        if (!(share_now <= 1))
            ++off;
        if (share_now > share) {
            share = share_now;
            where = name;
        }
        error = std::max(error, std::abs(error_now));
    }
};

/// Every `stride`-th of them integrated, from `first` on.
void integrate(std::vector<Both>& all, std::size_t first, std::size_t stride) {
    for (std::size_t i = first; i < all.size(); i += stride) {
        Both& both = all[i];
        both.theirs = ode::solve(both.setup);
        if (both.theirs.outcome != "trips")
            continue;
        ode::Setup held = both.setup;
        held.held_off = true;
        both.theirs_held = ode::solve(held);
    }
}

/// Both ends of the run are the same: the program's horizon, in scene time.
double endOf(const Installation& drawn) {
    const Controller& unit = std::get<Controller>(drawn.findPart(drawn.subject)->body);
    return unit.delay_s + unit.position_s + unit.spin_up_s + 1 + 3 * unit.build_s;
}

std::vector<Both> runBoth() {
    std::vector<Both> all;
    std::vector<runs::Wanted> wanted;
    for (std::uint64_t seed = 1; seed <= of_each_kind; ++seed)
        for (const auto kind :
             {random_loops::Kind::Fair, random_loops::Kind::Thin, random_loops::Kind::Weak}) {
            random_loops::Pair pair = random_loops::draw(kind, seed);
            pair.setup.end_s = endOf(pair.drawn);
            all.push_back({.name = random_loops::nameOf(kind) + " " + std::to_string(seed),
                           .setup = pair.setup});
            wanted.push_back({.installation = pair.drawn, .settings = {.attempts = 1}});
        }
    // Two integrate while two workers simulate: nothing is shared but the vector, whose elements
    // each belong to one.
    std::array<std::future<void>, 2> integrating;
    for (std::size_t i = 0; i < integrating.size(); ++i)
        integrating[i] =
            std::async(std::launch::async, integrate, std::ref(all), i, integrating.size());
    const std::vector<Start> ours = runs::startsOf(wanted);
    for (auto& one : integrating)
        one.get();
    std::vector<runs::Wanted> held;
    for (std::size_t i = 0; i < all.size(); ++i) {
        all[i].ours = ours[i];
        if (all[i].theirs_held)
            held.push_back({.installation = wanted[i].installation,
                            .settings = {.held_off = true, .attempts = 1}});
    }
    const std::vector<Start> freed = runs::startsOf(held);
    auto next = freed.begin();
    for (Both& both : all)
        if (both.theirs_held)
            both.ours_held = *next++;
    return all;
}

/// The largest of 1 ms, 0.5 % of the time since the attempt began, and the time in which the
/// integrator's filtered envelope moves its last 2 mV.
double tripBound(const Both& both, double since_s) {
    const double end_s = ode::firstTime(both.theirs, "gave up").value();
    const auto close = std::ranges::find_if(both.theirs.envelope, [&](const ode::Low& low) {
        return low.volts <= both.setup.unit.cut_out_v + 2e-3;
    });
    const double moving_s = close == both.theirs.envelope.end() ? 0 : end_s - close->at_s;
    return std::max({1e-3, 5e-3 * since_s, moving_s});
}

struct Summary {
    std::map<std::string, int> outcomes;
    int undecided = 0;
    int equal = 0;
    Worst filtered; ///< V
    Worst raw;      ///< V
    Worst trip;     ///< s
    Worst stall;    ///< s
};

double lastedFor(const Start& ours) {
    return ours.attempts.front().end_s - ours.attempts.front().begin_s;
}

double lastedFor(const ode::Result& theirs) {
    return ode::firstTime(theirs, "gave up").value() - ode::firstTime(theirs, "positions").value();
}

void compare(const Both& both, Summary& summary) {
    const Start& ours = both.oursFree();
    const ode::Result& theirs = both.theirsFree();
    ++summary.outcomes[both.theirs.outcome];
    summary.filtered.add(ours.sensed_lowest_v.value() - theirs.sensed_lowest_v,
                         2e-3 * theirs.sensed_lowest_v,
                         both.name);
    summary.raw.add(ours.lowest_v.value() - theirs.lowest_v, 2e-3 * theirs.lowest_v, both.name);
    if (both.isUndecided()) {
        ++summary.undecided;
        return;
    }
    CAPTURE(both.name, both.margin());
    CHECK(nameOf(both.ours.outcome) == both.theirs.outcome);
    if (nameOf(both.ours.outcome) != both.theirs.outcome)
        return;
    ++summary.equal;
    if (both.theirs.outcome == "starts")
        return;
    const double since_s = lastedFor(both.theirs);
    const double error_s = lastedFor(both.ours) - since_s;
    if (both.theirs.outcome == "trips")
        summary.trip.add(error_s, tripBound(both, since_s), both.name);
    else
        summary.stall.add(error_s, std::max(1e-3, 5e-3 * since_s), both.name);
}

std::string inWords(const Worst& worst, double scale, const std::string& unit) {
    return std::to_string(worst.count - worst.off) + " of " + std::to_string(worst.count) +
           ", worst " + text::fixed(worst.error * scale, 2) + " " + unit +
           ", nearest to its bound " + text::fixed(worst.share, 2) + " of it (" + worst.where + ")";
}

void report(const Summary& summary) {
    const published::Source odeint{"Boost.Odeint, the equations of models/README.md",
                                   Certainty::Derived};
    int all = 0;
    std::string counts;
    for (const auto& [outcome, count] : summary.outcomes) {
        all += count;
        counts += (counts.empty() ? "" : ", ") + std::to_string(count) + " " + outcome;
    }
    published::Sheet sheet("random-installations", "R");
    sheet.holds("Installations drawn, none rejected",
                all == 3 * static_cast<int>(of_each_kind),
                std::to_string(all) + ": " + counts,
                "at least 200, 50 of each outcome",
                odeint);
    const int decided = all - summary.undecided;
    sheet.holds("Outcome as integrated",
                summary.equal == decided,
                std::to_string(summary.equal) + " of " + std::to_string(decided) + "; " +
                    std::to_string(summary.undecided) +
                    " more lie within 5 mV of the cut-out and may differ",
                "every one; at most a tenth so near",
                odeint);
    sheet.holds("Lowest filtered voltage, cut-out held off",
                summary.filtered.off == 0,
                inWords(summary.filtered, 1e3, "mV"),
                "within 0.2 %",
                odeint);
    sheet.holds("Lowest voltage at the terminals, cut-out held off",
                summary.raw.off == 0,
                inWords(summary.raw, 1e3, "mV"),
                "within 0.2 %",
                odeint);
    sheet.holds("Time from positioning to giving up",
                summary.trip.off == 0,
                inWords(summary.trip, 1e3, "ms"),
                "within 1 ms, 0.5 % or the last 2 mV",
                odeint);
    sheet.holds("Time from positioning to a stall",
                summary.stall.off == 0,
                inWords(summary.stall, 1e3, "ms"),
                "within 1 ms or 0.5 %",
                odeint);
    if (!runs::isSanitised())
        sheet.keepMeasured();
}

} // namespace

TEST_CASE("random installations agree with an independent integration", "[reference][published]") {
    const std::vector<Both> all = runBoth();
    Summary summary;
    for (const Both& both : all)
        compare(both, summary);
    for (const char* outcome : {"starts", "trips", "stalls"})
        CHECK(summary.outcomes[outcome] >= least_of_each);
    CHECK(summary.undecided * 10 <= static_cast<int>(all.size()));
    report(summary);
}
