// SPDX-License-Identifier: MIT
// Where it is lost: what is avoidable, on what it rests, the sum on paper, and the first line.
#include "paper_sum.h"
#include "ruled.h"

#include "ebbline/report.h"

#include <catch2/catch.hpp>

using namespace ebbline;
using namespace ebbline::ruled;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// A start that trips at so many amperes: the ledger follows from the drawn resistances.
Case trippingAt(Case made, double amps) {
    const Network network = network::build(made.drawn, made.catalogues);
    Ledger ledger{.source_v = 12.6, .controller_v = 12.6, .rows = {}};
    const auto add = [&](const std::vector<Step>& way, Side side) {
        for (const Step& step : way) {
            const Element& element = network.elements[static_cast<std::size_t>(step.element)];
            ledger.rows.push_back(
                {element.name, side, amps * element.ohm, amps, std::optional(element.ohm)});
        }
    };
    ledger.rows.push_back({"house", Side::Source, amps * 4e-3, amps, 4e-3});
    add(network.loop->out, Side::Out);
    add(network.loop->back, Side::Back);
    for (const LedgerRow& row : ledger.rows)
        ledger.controller_v -= row.volts;
    made.start = {
        .outcome = Outcome::Trips, .source_v = 12.6, .peak_a = amps, .ledger = std::move(ledger)};
    made.verdict = {.margin = Margin::No, .headroom_v = -0.3};
    return made;
}

std::vector<Loss> losses(const Case& made) {
    const Network network = network::build(made.drawn, made.catalogues);
    return verdict::findLosses(
        network, made.catalogues, {.start = made.start, .verdict = made.verdict}, made.settings);
}

Loss lossIn(const Case& made, const std::string& element) {
    for (const Loss& loss : losses(made))
        if (loss.element == element)
            return loss;
    throw std::runtime_error("no loss in " + element);
}

Headline headlineOf(const Case& made) {
    const Network network = network::build(made.drawn, made.catalogues);
    return verdict::headline(
        network, made.catalogues, {.start = made.start, .verdict = made.verdict}, made.settings);
}

} // namespace

TEST_CASE("a loss is written as the sum one does on paper", "[rules]") {
    // IEC 60228: 2.5 mm2 class 5, 7.98 mohm/m; 9.1 m x 7.98 mohm/m x 9.4 A = 0.68 V.
    const Case made = trippingAt(of({.fuse_m = 0.1, .length_m = 9.1}), 9.4);
    CHECK(lossIn(made, "plus").sum == "9.1 m x 7.98 mohm/m x 9.40 A = 0.68 V");
    CHECK(lossIn(made, "main-fuse").sum == "6.7 mohm x 9.40 A = 0.063 V");
    CHECK(lossIn(made, "house").sum == "4 mohm x 9.40 A = 0.038 V");
}

TEST_CASE("every sum comes out as printed, cold or hot", "[rules]") {
    for (const double ambient_c : {-5.0, 20.0, 43.5}) {
        Case drawing = of({.fuse_m = 0.137, .length_m = 7.77, .plus = awg(12), .minus = mm2(6)});
        drawing.drawn.surroundings.ambient_c = ambient_c;
        const Case made = trippingAt(drawing, 8.37);
        REQUIRE(losses(made).size() == made.start.ledger->rows.size());
        for (const Loss& loss : losses(made)) {
            CAPTURE(ambient_c, loss.sum);
            const PaperSum sum = readPaperSum(loss.sum);
            CHECK(sum.product.holds(loss.volts));
            CHECK(sum.result.holds(loss.volts));
        }
        CHECK((lossIn(made, "plus").sum.find("°C") == std::string::npos) == (ambient_c == 20));
    }
}

TEST_CASE("what an inductive share adds is said beside the sum", "[rules]") {
    Case made = trippingAt(of({.fuse_m = 0.1, .length_m = 9.1}), 9.4);
    for (LedgerRow& row : made.start.ledger->rows)
        if (row.element == "plus")
            row.volts += 0.02;
    CHECK_THAT(lossIn(made, "plus").sum, Contains("0.68 V, and 0.020 V while the current changes"));
}

TEST_CASE("of a joint is avoidable what a new one would not lose", "[rules]") {
    Case drawing = of({});
    Joint& joint = drawn::runOf(drawing.drawn, "plus").cores[0].joint_to;
    joint = {.kind = "crimp", .condition = "corroded"};
    // joints.toml (estimates): a corroded crimp 60 mohm, a new one 0.2 mohm.
    Loss loss = lossIn(trippingAt(drawing, 10), "plus.to");
    CHECK_THAT(loss.volts, WithinRel(0.6, 1e-9));
    CHECK_THAT(loss.avoidable_v, WithinRel(0.598, 1e-9));
    CHECK(loss.basis == Basis::Estimate);
    CHECK_THAT(loss.remedy, Contains("plus.to"));
    joint = {.resistance_mohm = 0.2};
    loss = lossIn(trippingAt(drawing, 10), "plus.to");
    CHECK(loss.avoidable_v == 0);
    CHECK(loss.basis == Basis::Measured);
    CHECK(loss.remedy.empty());
}

TEST_CASE("of a fuse, a contact and a battery likewise", "[rules]") {
    Case drawing = of({.holder_mohm = 22});
    std::get<Battery>(drawing.drawn.parts[0].body).age_pct = 100;
    const Case made = trippingAt(drawing, 10);
    // A 15 A element has 4.7 mohm (from memory), a new holder 2 mohm.
    CHECK_THAT(lossIn(made, "main-fuse").avoidable_v, WithinAbs(0.2, 1e-9));
    CHECK_THAT(lossIn(made, "house").avoidable_v, WithinAbs(0.02, 1e-9)); // resistance doubled
    Case other = of({});
    other.drawn.parts[1].body = Isolator{.resistance_mohm = 50};
    CHECK_THAT(lossIn(trippingAt(other, 10), "main-fuse").avoidable_v, WithinAbs(0.495, 1e-9));
}

TEST_CASE("of a conductor what the size asked for would not lose", "[rules]") {
    // 3 % of 12 V, 9.4 A, 18.4 m of conductor: 2.08 mohm/m; class 5 has 1.91 at 10 mm2.
    const Case made = trippingAt(of({.fuse_m = 0.1, .length_m = 9.1}), 9.4);
    const Loss loss = lossIn(made, "plus");
    CHECK_THAT(loss.avoidable_v, WithinRel(9.1 * 9.4 * (7.98e-3 - 1.91e-3), 1e-9));
    CHECK(loss.basis == Basis::Standard);
    CHECK(loss.remedy ==
          "Lay 10 mm2 instead of 2.5 mm2 for plus, the first that keeps a 3 % drop.");
    // 10 %: 6.94 mohm/m, 4 mm2.
    Case lax = made;
    lax.settings.drop = DropChoice{10, ""};
    CHECK_THAT(lossIn(lax, "plus").remedy, Contains("Lay 4 mm2"));
    // Thick enough by the rule, but it does not start: the next one can buy.
    Case thick =
        trippingAt(of({.fuse_m = 0.1, .length_m = 2, .plus = awg(8), .minus = awg(8)}), 9.4);
    CHECK_THAT(lossIn(thick, "plus").remedy, Contains("Lay AWG 6 instead of AWG 8"));
    // Thick enough, and it starts clear: nothing to avoid.
    thick.start.outcome = Outcome::Starts;
    thick.verdict.margin = Margin::Clear;
    CHECK(lossIn(thick, "plus").avoidable_v == 0);
}

TEST_CASE("the first line names the largest avoidable loss, wherever it lies", "[rules]") {
    // A bad joint at the battery, the fridge's end sound: the first element, not the last.
    Case bad_joint = of({.length_m = 2, .plus = mm2(6), .minus = mm2(6)});
    drawn::runOf(bad_joint.drawn, "lead").cores[0].joint_from.resistance_mohm = 90;
    Headline line = headlineOf(trippingAt(bad_joint, 9));
    CHECK(line.element == "lead.from");
    CHECK_THAT(line.cause, Contains("lead.from takes 0.81 V"));
    CHECK_THAT(line.action, Contains("Remake the joint lead.from"));
    CHECK_THAT(line.action, !Contains("enough")); // gains 0.81 V, 0.3 V short, 0.3 V of band
    Case worse = trippingAt(bad_joint, 9);
    worse.verdict.headroom_v = -0.6;
    CHECK_THAT(headlineOf(worse).action, Contains("only just enough"));
    worse.verdict.headroom_v = -0.9;
    CHECK_THAT(headlineOf(worse).action, Contains("not enough"));
    // A long thin cable and the same joint: the cable.
    Case thin = of({.length_m = 14});
    drawn::runOf(thin.drawn, "lead").cores[0].joint_from.resistance_mohm = 90;
    line = headlineOf(trippingAt(thin, 9));
    CHECK(line.element == "minus"); // it is as long as lead and plus together
    CHECK_THAT(line.action, Contains("Lay"));
}

TEST_CASE("the worst crimp is named wherever it lies, beside one that is nearly as bad",
          "[rules]") {
    const std::vector<std::string> ends{
        "lead.from", "lead.to", "plus.from", "plus.to", "minus.from", "minus.to"};
    const auto joint = [](Case& made, const std::string& name) -> Joint& {
        const std::size_t dot = name.find('.');
        Core& core = drawn::runOf(made.drawn, name.substr(0, dot)).cores[0];
        return name.substr(dot) == ".from" ? core.joint_from : core.joint_to;
    };
    for (const std::string& worst : ends)
        for (const std::string& other : ends) {
            if (other == worst)
                continue;
            CAPTURE(worst, other);
            Case made = of({.length_m = 2, .plus = mm2(6), .minus = mm2(6)});
            joint(made, worst).resistance_mohm = 60;
            joint(made, other).resistance_mohm = 59.9;
            CHECK(headlineOf(trippingAt(made, 9)).element == worst);
        }
    // At the battery's minus, far from the fridge, and less than the cable loses: of the cable's
    // 0.19 V each way little is needless (IEC 60228 table 3: 1.91 and 1.21 mohm/m).
    Case thick = of({.fuse_m = 0.1, .length_m = 11, .plus = mm2(10), .minus = mm2(10)});
    joint(thick, "minus.to").resistance_mohm = 14;
    const Case made = trippingAt(thick, 9);
    CHECK(lossIn(made, "minus").volts > lossIn(made, "minus.to").volts);
    CHECK(headlineOf(made).element == "minus.to");
}

TEST_CASE("the cores of one cable count together", "[rules]") {
    Case made = of({.length_m = 6});
    Run& twin = drawn::runOf(made.drawn, "plus");
    twin.cores.push_back(drawn::runOf(made.drawn, "minus").cores[0]);
    std::erase_if(made.drawn.runs, [](const Run& run) { return run.id == "minus"; });
    // One core could avoid 0.36 V, both 0.73 V; the joint 0.5 V.
    drawn::runOf(made.drawn, "plus").cores[0].joint_to.resistance_mohm = 55;
    const Headline line = headlineOf(trippingAt(made, 9.2));
    CHECK(line.element == "plus");
    CHECK_THAT(line.cause, Contains("plus takes 0.88 V"));
}

TEST_CASE("a flat battery is named before small losses", "[rules]") {
    Case made = trippingAt(of({.length_m = 1, .plus = mm2(10), .minus = mm2(10)}), 9);
    made.start.source_v = 11.95;
    const Headline line = headlineOf(made);
    CHECK(line.element == "house");
    CHECK_THAT(line.action, Contains("Charge"));
}

TEST_CASE("the first line for what is not the supply's drop", "[rules]") {
    Case made = of({});
    const auto line = [&](Outcome outcome) {
        made.start = {.outcome = outcome};
        made.verdict = {};
        return headlineOf(made);
    };
    CHECK_THAT(line(Outcome::Stalls).action, Contains("equalise"));
    CHECK_THAT(line(Outcome::SupplyLow).action, Contains("charge"));
    CHECK_THAT(line(Outcome::ThermostatOpen).cause, Contains("thermostat"));
    CHECK_THAT(line(Outcome::Reversed).action, Contains("exchange"));
    CHECK_THAT(line(Outcome::WrongVoltage).action, Contains("nominal voltage"));
    CHECK_THAT(line(Outcome::FuseOpens).action, Contains("Look for a short"));
    std::get<Fuse>(made.drawn.parts[1].body).blown = true;
    const Headline blown = line(Outcome::NotPowered);
    CHECK(blown.element == "main-fuse");
    CHECK_THAT(blown.action, Contains("before you renew"));
}

TEST_CASE("a fuse too small for the start is named as the one that opens", "[rules]") {
    Case made = of({});
    made.start = {.outcome = Outcome::FuseOpens, .peak_a = 20};
    made.start.waveform = {
        .time_s = {0, 5}, .volts = {}, .sensed = {}, .amps = {20, 20}, .speed = {}};
    CHECK(headlineOf(made).element == "main-fuse");
    CHECK_THAT(headlineOf(made).action, Contains("Fit a larger one"));
}

TEST_CASE("a fridge that starts from a feed without a fuse is not all well", "[rules]") {
    Case made = of({.fuse_m = 0.1});
    CHECK_THAT(headlineOf(made).cause, Contains("0.80 V to spare"));
    CHECK(headlineOf(made).action.empty());
    made.drawn.parts[1].body = Isolator{};
    CHECK_THAT(headlineOf(made).cause, Contains("not safe"));
    CHECK_THAT(headlineOf(made).action, Contains("Fit a fuse"));
}

TEST_CASE("the report shows a kept drop rule as nothing more", "[rules]") {
    Case made = of({}, "small-craft-iso");
    made.settings.drop = DropChoice{10, "no maker's word"};
    made.start.outcome = Outcome::Trips;
    made.verdict = {.margin = Margin::No, .headroom_v = -0.4};
    const std::string text = report::writeRules(made.findings());
    CHECK_THAT(text, Contains("kept (drop only)"));
    // What is broken stands above what is kept.
    CHECK(text.find("BROKEN") < text.find("kept (drop only)"));
    CHECK(text.find("headroom") < text.find("drop-10-percent"));
    CHECK_THAT(text, Contains("from memory"));
    const std::string json = report::writeRulesJson(made.findings());
    CHECK_THAT(json, Contains("\"rule\": \"drop-10-percent\""));
    CHECK_THAT(json, Contains("\"state\": \"not-judged\""));
    CHECK_THAT(json, Contains("\"limit\": null"));
    const Case tripped = trippingAt(of({}), 9);
    CHECK_THAT(report::writeLosses(losses(tripped)), Contains("x 9.00 A = "));
    CHECK_THAT(report::writeLossesJson(losses(tripped)), Contains("\"basis\": \"standard\""));
    CHECK_THAT(report::writeHeadline(headlineOf(tripped)), Contains("\nFirst: "));
}
