// SPDX-License-Identifier: MIT
// Everything said of every scene: its sums come out, its remedies hold when they are carried out.
#include "by_hand.h"
#include "drawn.h"
#include "expected_remedies.h"
#include "paper_sum.h"
#include "runs.h"

#include "ebbline/inquiry.h"
#include "ebbline/report.h"
#include "ebbline/telling.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace ebbline;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

using enum RemedyKind;

/// A scene, as drawn or under one of its conditions, with all that is said of it.
struct Answer {
    std::string name;
    Installation drawn;
    Inquiry inquiry;

    [[nodiscard]] const Start& start() const { return inquiry.examination.start; }
    [[nodiscard]] const Remedy* find(RemedyKind kind, const std::string& on) const {
        for (const Remedy& remedy : inquiry.remedies)
            if (remedy.kind == kind && remedy.on == on)
                return &remedy;
        return nullptr;
    }
};

/// Without the loop budget, which takes most of the time and is tested by itself.
Answer ask(Engine& engine, const std::string& name, const Installation& drawn) {
    const auto silent = [](const std::string&) {};
    const Models& models = file::embeddedModels();
    Examination examination = study::runStartAlone(engine, drawn, models, silent);
    auto remedies = study::findRemedies(engine, drawn, models, examination, silent);
    return {
        name, drawn, study::judge(std::move(examination), std::move(remedies), drawn, models, {})};
}

std::vector<Answer> askAll(Engine& engine) {
    std::vector<Answer> answers;
    for (const std::string& name : drawn::sceneNames()) {
        const Installation scene = drawn::scene(name);
        answers.push_back(ask(engine, name, scene));
        for (const ChangeSet& condition : scene.conditions)
            answers.push_back(ask(
                engine, name + " " + condition.id, installation::apply(scene, condition.changes)));
    }
    return answers;
}

// Sums.

/// The number behind "has" in "(a new ring has 0.1 mohm)".
double newMohm(const std::string& remedy) {
    const std::size_t at = remedy.find(" has ");
    REQUIRE(at != std::string::npos);
    return std::stod(remedy.substr(at + 5));
}

/// The two sizes of "Lay 4 mm2 instead of 2.5 mm2".
std::pair<double, double> newAndOldMm2(const std::string& remedy) {
    const std::size_t old = remedy.find("instead of ");
    REQUIRE((remedy.starts_with("Lay ") && old != std::string::npos));
    return {std::stod(remedy.substr(4)), std::stod(remedy.substr(old + 11))};
}

/// What a resistance rests on, by what is drawn; nothing for kinds not told apart here.
std::optional<Basis> basisOf(const Installation& drawn, const Element& element) {
    if (element.kind == ElementKind::Conductor)
        return Basis::Standard;
    if (const auto joint = findJoint(drawn, element.name))
        return joint->resistance_mohm ? Basis::Measured : Basis::Estimate;
    const Part* part = drawn.findPart(element.part);
    if (part == nullptr || std::holds_alternative<Battery>(part->body))
        return Basis::Estimate;
    if (const auto* fuse = std::get_if<Fuse>(&part->body))
        return fuse->resistance_mohm ? Basis::Measured : Basis::Typical;
    return std::nullopt;
}

/// What is needless is what the row's own advice would save.
void checkAvoidable(const Answer& answer, const Loss& loss, const LedgerRow& row) {
    CHECK(loss.avoidable_v >= 0);
    CHECK(loss.avoidable_v <= std::max(0.0, loss.volts));
    CHECK((loss.avoidable_v > 0) == !loss.remedy.empty());
    if (loss.remedy.empty())
        return;
    if (loss.remedy.starts_with("Remake")) {
        CHECK_THAT(loss.avoidable_v,
                   WithinAbs(loss.volts - newMohm(loss.remedy) * 1e-3 * row.amps, 1e-6));
    } else if (loss.remedy.find(" mm2 instead") != std::string::npos) {
        const auto [made, old] = newAndOldMm2(loss.remedy);
        const Run* run = answer.drawn.findRun(loss.element.substr(0, loss.element.find('.')));
        REQUIRE(run != nullptr);
        // Source: IEC 60228:2004 table 3, as models/conductors.toml holds it.
        const auto& table =
            file::embeddedModels().catalogues.conductors.at(run->cores.front().conductor);
        CHECK_THAT(loss.avoidable_v,
                   WithinRel(loss.volts * (1 - table.at(made) / table.at(old)), 1e-6));
    }
}

/// The row's volts come out of its printed sum, as far as the printed digits go.
void checkSum(const Loss& loss) {
    const PaperSum sum = readPaperSum(loss.sum);
    if (sum.no_current) {
        CHECK(std::abs(loss.volts) < 0.0005); // printed 0.000
        return;
    }
    CHECK(sum.whole().holds(loss.volts, sum.rounding()));
    CHECK(sum.product.holds((sum.result.low + sum.result.high) / 2, sum.rounding()));
}

void checkSums(const Answer& answer) {
    const auto& ledger = answer.start().ledger;
    const auto& losses = answer.inquiry.losses;
    REQUIRE(losses.size() == (ledger ? ledger->rows.size() : 0));
    if (!ledger)
        return;
    const Network network = network::build(answer.drawn, file::embeddedModels().catalogues);
    const double lost_v = ledger->source_v - ledger->controller_v;
    double rows_v = 0;
    Interval paper;
    double rounding_v = 0;
    for (std::size_t i = 0; i < losses.size(); ++i) {
        const Loss& loss = losses[i];
        CAPTURE(loss.element, loss.sum, loss.volts, loss.remedy);
        CHECK(loss.element == ledger->rows[i].element);
        CHECK(loss.volts == ledger->rows[i].volts);
        checkSum(loss);
        checkAvoidable(answer, loss, ledger->rows[i]);
        const auto element = std::ranges::find(network.elements, loss.element, &Element::name);
        REQUIRE(element != network.elements.end());
        if (const auto basis = basisOf(answer.drawn, *element))
            CHECK(loss.basis == *basis);
        const PaperSum sum = readPaperSum(loss.sum);
        paper = paper + sum.whole();
        rounding_v += sum.rounding();
        rows_v += loss.volts;
    }
    // The ledger's own bound: 1 mV + 0.01 % of the source.
    const double bound_v = 1e-3 + 1e-4 * ledger->source_v;
    CHECK_THAT(rows_v, WithinAbs(lost_v, bound_v));
    CHECK(paper.holds(lost_v, rounding_v + bound_v));
}

// Remedies.

/// The first attempt of each, nothing merged: not the circuits that the search for remedies ran.
std::vector<Start> runFresh(Engine& engine, const std::vector<Installation>& installations) {
    const Models& models = file::embeddedModels();
    std::vector<Netlist> netlists;
    std::vector<Job> jobs;
    for (const Installation& installation : installations) {
        netlists.push_back(netlist::build(
            network::build(installation, models.catalogues), models, {.attempts = 1}));
        jobs.push_back(netlists.back().job);
    }
    std::vector<Solution> solutions = engine.run(jobs);
    std::vector<Start> starts;
    for (std::size_t i = 0; i < netlists.size(); ++i)
        starts.push_back(start::read(study::requireSolved(std::move(solutions[i])), netlists[i]));
    return starts;
}

/// Lowest filtered voltage above the cut-out, V; nothing where it does not start.
std::optional<double> spareOf(const Installation& installation, const Start& start) {
    if (start.outcome != Outcome::Starts)
        return std::nullopt;
    const auto& unit = std::get<Controller>(installation.findPart(installation.subject)->body);
    return start.sensed_lowest_v.value() -
           (installation.nominal_v > 18 ? unit.cut_out_24_v : unit.cut_out_v);
}

/// Merged and unmerged circuits differ by less.
constexpr double fresh_v = 2e-3;

/// The step carried out by hand does what is said of it.
void checkStep(const RemedyStep& step, const Installation& made, const Start& start) {
    CHECK(start.outcome == step.outcome);
    const auto spare_v = spareOf(made, start);
    REQUIRE(spare_v.has_value() == step.headroom_v.has_value());
    if (spare_v)
        CHECK_THAT(*spare_v, WithinAbs(*step.headroom_v, fresh_v));
    // Common practice, no source: 0.3 V is what an estimate may be off.
    const Margin margin = !spare_v ? Margin::No : *spare_v > 0.3 ? Margin::Clear : Margin::OnlyJust;
    CHECK(margin == step.margin);
}

/// A cure starts clear, and nothing smaller that one can buy or do.
void checkSmallest(const Answer& answer, const Remedy& remedy) {
    if (remedy.cure)
        CHECK(remedy.cure->margin == Margin::Clear);
    if (remedy.below)
        CHECK(remedy.below->margin != Margin::Clear);
    CHECK((remedy.cure || remedy.below)); // said, or said not to suffice
    if (!remedy.cure)
        return;
    if (const auto value = findStepBelow(remedy, remedy.cure->value, answer.drawn)) {
        REQUIRE(remedy.below.has_value());
        CHECK(remedy.below->value == *value);
    }
    if (remedy.kind == ShorterWay && remedy.below)
        CHECK(remedy.below->value > remedy.cure->value);
}

/// Says how often a cure was carried out.
int checkRemedies(Engine& engine, const Answer& answer) {
    std::vector<Installation> made;
    std::vector<std::pair<const Remedy*, const RemedyStep*>> steps;
    int cures = 0;
    for (const Remedy& remedy : answer.inquiry.remedies) {
        CAPTURE(nameOf(remedy.kind), remedy.on);
        checkSmallest(answer, remedy);
        cures += remedy.cure ? 1 : 0;
        for (const auto* step : {&remedy.cure, &remedy.below})
            if (*step) {
                steps.emplace_back(&remedy, &**step);
                made.push_back(carryOut(remedy, (*step)->value, answer.drawn));
            }
    }
    const std::vector<Start> starts = runFresh(engine, made);
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto& [remedy, step] = steps[i];
        CAPTURE(nameOf(remedy->kind), remedy->on, step->value);
        checkStep(*step, made[i], starts[i]);
    }
    return cures;
}

// Which remedies.

/// Repairs put back what was meant; redesign buys or lays something else.
bool isPuttingBack(RemedyKind kind) {
    return kind != LargerFuse && kind != ThickerCable && kind != ShorterWay &&
           kind != DoubleVoltage;
}

void checkKinds(const Answer& answer) {
    NamedRemedies found;
    for (const Remedy& remedy : answer.inquiry.remedies)
        found.emplace(remedy.kind, remedy.on);
    CHECK(found == expectRemedies(answer.drawn, answer.inquiry.examination));
    CHECK(found.size() == answer.inquiry.remedies.size());
    CHECK(std::ranges::is_partitioned(
        answer.inquiry.remedies, [](const Remedy& remedy) { return isPuttingBack(remedy.kind); }));
}

// Rules.

void checkRules(const Answer& answer) {
    const auto& rules = answer.inquiry.rules;
    for (const RuleFinding& finding : rules) {
        CAPTURE(finding.rule);
        CHECK_FALSE(finding.reason.empty());
        // Judged means: held against something that was printed, or said to be practice.
        CHECK((finding.state == RuleState::NotJudged || !finding.source.empty()));
    }
    const auto headroom = std::ranges::find(rules, "headroom", &RuleFinding::rule);
    REQUIRE(headroom != rules.end());
    const Outcome outcome = answer.start().outcome;
    CHECK((headroom->state == RuleState::Kept) == (outcome == Outcome::Starts));
    CHECK((headroom->state == RuleState::Broken) == (outcome == Outcome::Trips));
}

// Words.

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

/// What the line of one remedy must and must not say.
void checkRemedyLine(const Remedy& remedy, const std::string& line) {
    CAPTURE(line);
    CHECK_THAT(line, Catch::StartsWith(isPuttingBack(remedy.kind) ? "  repair " : "  redesign "));
    CHECK((line.find("not by this alone") == std::string::npos) == remedy.cure.has_value());
    CHECK((line.find("starts clear") == std::string::npos) == !remedy.cure.has_value());
    const bool is_just = remedy.below && remedy.below->margin == Margin::OnlyJust;
    CHECK((line.find("only just") == std::string::npos) == !is_just);
    const bool fails = remedy.below && remedy.below->outcome != Outcome::Starts;
    CHECK((line.find("does not start") == std::string::npos) == !fails);
    // A step that does not start has no volts: the cut-out ended its dip.
    for (const char* word : {"lack", "short", "too low", "-0"})
        CHECK_THAT(line, !Contains(word));
}

/// Every shortfall that is named is the one of the start held on, never of the dip cut short.
void checkShortfalls(const Answer& answer, const std::string& text) {
    const Verdict& verdict = answer.inquiry.examination.verdict;
    std::string allowed;
    if (answer.start().outcome == Outcome::Trips && verdict.headroom_v)
        allowed = text::fixed(-*verdict.headroom_v, 2);
    const std::string marker = " V too low";
    for (std::size_t at = text.find(marker); at != std::string::npos;
         at = text.find(marker, at + 1))
        CHECK(text.substr(at - allowed.size(), allowed.size()) == allowed);
    CHECK((text.find(marker) == std::string::npos) == allowed.empty());
    CHECK_THAT(text, !Contains("lacks"));
}

void checkWords(const Answer& answer) {
    const std::string text = report::writeText(answer.inquiry);
    const std::vector<std::string> lines = linesOf(text);
    REQUIRE(lines.size() > 2);
    CHECK(lines[0] == answer.drawn.title);
    const Start& start = answer.start();
    const bool starts = start.outcome == Outcome::Starts ||
                        (start.outcome == Outcome::FuseOpens && start.reached_speed);
    CHECK_THAT(lines[1], Catch::StartsWith(starts ? "The fridge starts" : "The fridge does "));
    checkShortfalls(answer, text);
    auto line = std::ranges::find(lines, "What would make it start, each tried by itself");
    CHECK((line == lines.end()) == answer.inquiry.remedies.empty());
    for (const Remedy& remedy : answer.inquiry.remedies)
        checkRemedyLine(remedy, *++line);
}

/// Whether the first line's advice, taken by itself, was found to start clear: a remedy of the same
/// thing, and of a cable the size that is named.
bool curesAsAdvised(const Answer& answer, const std::string& advice) {
    const Headline& headline = answer.inquiry.headline;
    const bool is_size = advice.find(" mm2 instead") != std::string::npos;
    const double most = is_size ? newAndOldMm2(advice).first : 100; // per cent, or nothing
    return std::ranges::any_of(answer.inquiry.remedies, [&](const Remedy& remedy) {
        return remedy.on == headline.element && remedy.cure &&
               (remedy.kind == ThickerCable) == is_size && remedy.cure->value <= most;
    });
}

/// The first line says of its advice that it is not enough, or only just, where that is so alone.
void checkPromise(const Answer& answer) {
    const std::string& action = answer.inquiry.headline.action;
    if (answer.start().outcome != Outcome::Trips)
        return;
    CAPTURE(action);
    const bool has_doubts = action.find("not enough") != std::string::npos ||
                            action.find("only just") != std::string::npos;
    std::string named;
    if (answer.inquiry.headline.falls_short)
        for (const Remedy& remedy : answer.inquiry.remedies)
            if (remedy.cure && named.empty())
                named =
                    "This alone would do: " + study::actionWords(remedy, remedy.cure->value) + ". ";
    REQUIRE_THAT(action, Catch::StartsWith(named));
    const std::string advice = action.substr(named.size());
    CHECK_THAT(advice, !Contains("This alone would do"));
    CHECK(curesAsAdvised(answer, advice) == !has_doubts);
}

/// A bad crimp on the battery's minus post, the way from there to the fridge sound: it is named,
/// in text and picture, and not what stands last before the fridge.
void checkCrimpAtBattery(const Answer& answer) {
    const std::string crimp = "twin.2.from";
    const auto& losses = answer.inquiry.losses;
    const auto worst = std::ranges::max_element(losses, {}, &Loss::avoidable_v);
    CHECK(worst->element == crimp);
    CHECK(losses.back().element == crimp); // the ledger ends where the current comes home
    CHECK(answer.inquiry.headline.element == crimp);
    CHECK_THAT(report::writeText(answer.inquiry),
               Contains("Does not start: " + crimp + " takes ") &&
                   Contains("First: Remake the joint " + crimp));
    const Moment worst_moment{answer.inquiry, drawing::tellingMoment(answer.start())};
    const Wording wording = drawing::wordingOf(worst_moment);
    CHECK_THAT(wording.heading, Contains("at House battery minus"));
    CHECK_THAT(wording.action, Contains("Remake that joint"));
}

/// Faults and the remedies they ask for; cures of a value.
void checkKnown(const std::vector<Answer>& answers) {
    const auto of = [&](const std::string& name) -> const Answer& {
        return *std::ranges::find(answers, name, &Answer::name);
    };
    const auto cures = [&](const std::string& name, RemedyKind kind, const std::string& on) {
        CAPTURE(name, nameOf(kind), on);
        const Remedy* remedy = of(name).find(kind, on);
        REQUIRE(remedy != nullptr);
        CHECK(remedy->cure.has_value());
    };
    const Remedy* cable = of("quay-02.toml").find(ThickerCable, "twin");
    REQUIRE(cable != nullptr);
    CHECK(cable->cure.value().value == 2.5); // the next size one can buy
    CHECK_FALSE(cable->below.has_value());   // below it lies the drawing itself
    cures("quay-02.toml", DoubleVoltage, "");
    CHECK(of("quay-02.toml").find(RemakeJoint, "twin.1.from") == nullptr); // all are new
    cures("quay-07.toml", RemakeJoint, "twin.2.from");
    CHECK(of("quay-07.toml").inquiry.remedies.front().kind == RemakeJoint); // repairs come first
    checkCrimpAtBattery(of("quay-07.toml"));
    cures("cabin-01.toml", RenewBattery, "house");
    cures("cabin-02.toml night", ChargerOn, "");
    cures("quay-06.toml", OtherLoadsOff, "");
    cures("van-02.toml", RemakeJoint, "rear-bond.lug");
    cures("van-03.toml", LargerFuse, "cool-fuse");
    CHECK(of("quay-01.toml").inquiry.remedies.empty()); // it starts clear
}

} // namespace

TEST_CASE("all that is said of every scene holds when it is done and summed anew", "[answers]") {
    const auto pool = runs::makePool();
    const std::vector<Answer> answers = askAll(*pool);
    int cures = 0;
    for (const Answer& answer : answers) {
        CAPTURE(answer.name);
        checkSums(answer);
        checkKinds(answer);
        checkRules(answer);
        checkWords(answer);
        checkPromise(answer);
        cures += checkRemedies(*pool, answer);
    }
    CHECK(cures > 20);
    checkKnown(answers);
}
