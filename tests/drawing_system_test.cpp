// SPDX-License-Identifier: MIT
// Pictures of every scene: legible at every size, true to the start, the same every time.
#include "drawing/font.h"
#include "drawn.h"
#include "legible.h"
#include "runs.h"
#include "scratch.h"

#include "ebbline/drawing.h"
#include "ebbline/inquiry.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <map>
#include <sstream>

using namespace ebbline;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

namespace {

using Draw = std::function<Drawing(const Moment&, const View&)>;

struct Kind {
    const char* name;
    Draw draw;
    std::vector<std::pair<int, int>> sizes;
};

std::vector<Kind> allKinds() {
    using Sizes = std::vector<std::pair<int, int>>;
    const Sizes pages{{390, 700}, {1280, 800}, {1600, 1000}, {1024, 768}};
    const Sizes walls{{1600, 1000}, {1024, 768}, {1280, 800}};
    return {{"page", drawing::page, pages},
            {"room", drawing::room, walls},
            {"plan", drawing::plan, {{390, 300}, {900, 500}}},
            {"gap", drawing::gapChart, {{390, 300}, {900, 500}}},
            {"time", drawing::timeChart, {{390, 300}, {900, 500}}}};
}

std::string volts(double value) {
    return (value < 0 ? "−" : "") + text::fixed(std::abs(value), 2) + " V";
}

/// Remedies of every kind of wording, so that their list is drawn without the runs that find them.
std::vector<Remedy> inventedRemedies(const Installation& installation) {
    const std::string run = installation.runs.front().id;
    const RemedyStep cure{
        .value = 25, .outcome = Outcome::Starts, .margin = Margin::Clear, .headroom_v = 0.61};
    const RemedyStep less{.value = 16, .outcome = Outcome::Trips};
    return {{.kind = RemedyKind::ThickerCable, .on = run, .cure = cure},
            {.kind = RemedyKind::ShorterWay, .on = run, .below = less},
            {.kind = RemedyKind::RemakeJoints, .cure = cure},
            {.kind = RemedyKind::DoubleVoltage, .cure = cure}};
}

Inquiry inquire(Engine& engine, const Installation& installation) {
    Inquiry inquiry = study::inquireBriefly(
        engine, installation, file::embeddedModels(), {}, [](const std::string&) {});
    if (inquiry.examination.verdict.margin == Margin::Clear)
        return inquiry;
    return study::judge(std::move(inquiry.examination),
                        inventedRemedies(installation),
                        installation,
                        file::embeddedModels(),
                        {});
}

/// Every scene, simulated once for all tests of this process.
const std::map<std::string, Inquiry>& scenes() {
    static const std::map<std::string, Inquiry> all = [] {
        std::map<std::string, Inquiry> found;
        const auto pool = runs::makePool();
        for (const std::string& name : drawn::sceneNames()) {
            const Installation scene = drawn::scene(name);
            found.emplace(
                name,
                inquire(*pool, installation::apply(scene, installation::faultChanges(scene))));
        }
        return found;
    }();
    return all;
}

/// Texts in another language for as long as this lives.
class Speaking {
public:
    explicit Speaking(const std::string& language) { setReader({.language = language}); }
    ~Speaking() { setReader({}); }
    Speaking(const Speaking&) = delete;
    Speaking& operator=(const Speaking&) = delete;
};

/// The same runs in the words of now.
Inquiry judgeAgain(const Inquiry& inquiry) {
    return study::judge(inquiry.examination,
                        inquiry.remedies,
                        inquiry.examination.network.installation,
                        file::embeddedModels(),
                        {});
}

/// The moments worth a picture: before anything, on the way, at the lowest, at the end.
std::vector<double> momentsOf(const Start& start) {
    const double telling_s = drawing::tellingMoment(start);
    return {telling_s, std::max(0.0, 0.6 * telling_s), start.horizon_s};
}

void checkLegible(const Drawing& drawing) {
    CHECK(legible::findFaults(drawing) == std::vector<std::string>{});
    CHECK(legible::leastTextContrast(drawing) >= 7);
    CHECK(legible::leastLineContrast(drawing) >= 3);
}

/// Every kind, size and paper of one moment.
void checkAllLegible(const Moment& moment) {
    for (const Kind& kind : allKinds())
        for (const auto& [width, height] : kind.sizes)
            for (const Paper paper : {Paper::Light, Paper::Dark}) {
                CAPTURE(kind.name, width, height, paper, moment.at_s);
                checkLegible(kind.draw(
                    moment, {static_cast<double>(width), static_cast<double>(height), paper}));
            }
}

void checkRoom(const Drawing& room) {
    const std::vector<Label> labels = legible::labelsOf(room);
    CHECK(labels.size() >= 3);
    CHECK(labels.size() <= 15);
    for (const Label& label : labels) {
        CAPTURE(label.text);
        CHECK(label.size * drawing::font_capital >= 0.025 * room.height);
    }
}

/// The fuse that opens, or the thing with the largest avoidable loss at the lowest moment, from the
/// start's own ledger; of nothing avoidable the largest of the wiring. Its loss.
std::optional<double> largestNamedLoss(const Inquiry& inquiry) {
    const Network& network = inquiry.examination.network;
    struct Sum {
        double volts = 0;
        double avoidable_v = 0;
        bool battery = false;
    };
    std::map<std::string, Sum> sums;
    for (const Loss& loss : inquiry.losses) {
        const auto element = std::ranges::find(network.elements, loss.element, &Element::name);
        REQUIRE(element != network.elements.end());
        const bool is_run_joint = element->kind != ElementKind::Conductor &&
                                  network.installation.findRun(element->part) != nullptr;
        Sum& sum = sums[is_run_joint ? element->name : element->part];
        sum.volts += loss.volts;
        sum.avoidable_v += loss.avoidable_v;
        sum.battery = sum.battery || element->kind == ElementKind::Battery;
    }
    if (inquiry.examination.start.outcome == Outcome::FuseOpens)
        return sums.at(inquiry.headline.element).volts;
    const Sum* worst = nullptr;
    for (const auto& [id, sum] : sums)
        if (sum.avoidable_v >= 0.02 && (worst == nullptr || sum.avoidable_v > worst->avoidable_v))
            worst = &sum;
    if (worst == nullptr)
        for (const auto& [id, sum] : sums)
            if (!sum.battery && (worst == nullptr || sum.volts > worst->volts))
                worst = &sum;
    return worst == nullptr || worst->volts < 0.005 ? std::nullopt : std::optional(worst->volts);
}

double largestSize(const std::vector<Label>& labels, std::string_view text) {
    double size = 0;
    for (const Label& label : labels)
        if (legible::plain(label.text).find(text) != std::string::npos)
            size = std::max(size, label.size);
    return size;
}

/// Figures at the lowest moment against the start itself.
void checkNumbers(const Inquiry& inquiry) {
    const Start& start = inquiry.examination.start;
    const Moment moment{inquiry, drawing::tellingMoment(start)};
    const View view{1600, 1000};
    const std::vector<Label> gap = legible::labelsOf(drawing::gapChart(moment, view));
    const std::vector<Label> time = legible::labelsOf(drawing::timeChart(moment, view));
    const std::vector<Label> plan = legible::labelsOf(drawing::plan(moment, view));
    const double cut_out_v = inquiry.examination.verdict.cut_out_v;
    CHECK(legible::hasText(time, "cut-out " + volts(cut_out_v)));
    CHECK(legible::hasText(time, "cut-in " + volts(inquiry.examination.verdict.cut_in_v)));
    CHECK(legible::hasText(gap, "It needs " + volts(cut_out_v)));
    if (!start.ledger)
        return;
    const double arrives_v = start.ledger->controller_v;
    CAPTURE(arrives_v);
    CHECK(legible::hasText(gap, volts(arrives_v) + " arrive"));
    CHECK(legible::hasText(gap, volts(std::abs(arrives_v - cut_out_v))));
    CHECK(legible::hasText(gap, arrives_v < cut_out_v ? "under cut-out" : "above cut-out"));
    CHECK(legible::hasText(plan, volts(arrives_v)));
    CHECK(legible::hasText(time, volts(arrives_v)));
    CHECK(legible::hasText(time, text::fixed(start.lowest_at_s, 2) + " s"));
    if (const auto largest = largestNamedLoss(inquiry)) {
        const std::string largest_words = volts(*largest);
        CAPTURE(largest_words);
        CHECK(legible::hasText(plan, "loses " + largest_words));
        CHECK(legible::hasText(gap, largest_words));
        // No other loss stands in larger type.
        for (const Label& label : plan)
            if (legible::plain(label.text).starts_with("loses"))
                CHECK(label.size <= largestSize(plan, "loses " + largest_words));
    }
}

/// Words wherever hatch says that nothing is left.
void checkHatchHasWords(const Drawing& page) {
    bool hatched = false;
    for (const Group& group : page.groups)
        if (group.role == "run")
            for (const auto& item : group.items)
                if (const auto* shape = std::get_if<Shape>(&item))
                    hatched = hatched || shape->edge == Ink::Warning;
    CHECK((!hatched || legible::hasText(legible::labelsOf(page), "nothing left")));
}

void checkScene(const Inquiry& inquiry) {
    const Start& start = inquiry.examination.start;
    for (const double at_s : momentsOf(start)) {
        const Moment moment{inquiry, at_s};
        CAPTURE(at_s);
        checkAllLegible(moment);
        for (const View& view : {View{1600, 1000}, View{1024, 768}, View{1280, 800}}) {
            CAPTURE(view.width);
            checkRoom(drawing::room(moment, view));
        }
        for (const View& view : {View{390, 700}, View{1280, 800}, View{1600, 1000}}) {
            CAPTURE(view.width);
            checkHatchHasWords(drawing::page(moment, view));
        }
    }
    checkNumbers(inquiry);
    const Moment telling{inquiry, drawing::tellingMoment(start)};
    const Drawing page = drawing::page(telling, {});
    CHECK(page == drawing::page(telling, {}));
    CHECK(drawing::writeSvg(page) == drawing::writeSvg(drawing::page(telling, {})));
}

std::string contentOf(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream all;
    all << file.rdbuf();
    return all.str();
}

} // namespace

TEST_CASE("every picture of every scene is legible, true and the same every time",
          "[drawing][scenes]") {
    // One test, so that every scene is simulated once.
    SECTION("as they are") {
        for (const auto& [name, inquiry] : scenes()) {
            CAPTURE(name);
            checkScene(inquiry);
        }
    }

    SECTION("in German everything finds its place as well") {
        const Speaking german("de");
        for (const auto& [name, inquiry] : scenes()) {
            CAPTURE(name);
            const Inquiry translated = judgeAgain(inquiry);
            const Moment moment{translated, drawing::tellingMoment(inquiry.examination.start)};
            checkAllLegible(moment);
            for (const View& view : {View{1600, 1000}, View{1024, 768}, View{1280, 800}})
                checkRoom(drawing::room(moment, view));
            const auto labels = legible::labelsOf(drawing::page(moment, {}));
            CHECK_FALSE(legible::hasText(labels, "It needs"));
            CHECK(legible::hasText(labels, "Es braucht"));
        }
    }

    SECTION("between the lowest moment and the call the numbers follow the waveform") {
        const Inquiry& inquiry = scenes().at("quay-02.toml");
        const Waveform& waveform = inquiry.examination.start.waveform;
        for (const double at_s : {0.3, 0.9, 1.2, 5.0}) {
            const auto place = std::ranges::lower_bound(waveform.time_s, at_s);
            const auto after = static_cast<std::size_t>(place - waveform.time_s.begin());
            REQUIRE((after > 0 && after < waveform.time_s.size()));
            const Frame frame = start::frameAt(inquiry.examination.start, at_s);
            CHECK_THAT(frame.controller_v, WithinAbs(waveform.volts[after], 0.03));
            const Drawing plan = drawing::plan({inquiry, at_s}, {900, 500});
            CHECK(legible::hasText(legible::labelsOf(plan, "part"), volts(frame.controller_v)));
        }
    }

    SECTION("long names, foreign letters and mark-up stay names") {
        Inquiry inquiry = scenes().at("van-01.toml");
        Installation& installation = inquiry.examination.network.installation;
        installation.title =
            "<script>alert(1)</script> & \"Ærø\" \xf0\x9f\x9a\x90 " + std::string(300, 'W');
        for (Part& part : installation.parts)
            part.name =
                "The very long name of part <" + part.id + "> that somebody typed in one go";
        const Moment moment{inquiry, drawing::tellingMoment(inquiry.examination.start)};
        checkAllLegible(moment);
        const std::string svg = drawing::writeSvg(drawing::page(moment, {}));
        CHECK_THAT(svg, !Contains("<script"));
        CHECK(drawing::writePng(drawing::page(moment, {})).size() > 1000);
    }

    SECTION("an installation without places is laid out by itself") {
        for (const char* name : {"quay-02.toml", "quay-06.toml", "van-01.toml", "van-02.toml"}) {
            CAPTURE(name);
            Inquiry inquiry = scenes().at(name);
            Installation& installation = inquiry.examination.network.installation;
            installation.plan.outline_m.clear();
            for (Part& part : installation.parts)
                part.at_m.reset();
            for (Run& run : installation.runs) {
                run.length_m = run.length();
                run.route_m.clear();
                run.spare_m = 0;
            }
            const Moment moment{inquiry, drawing::tellingMoment(inquiry.examination.start)};
            checkAllLegible(moment);
            const std::vector<Label> labels = legible::labelsOf(drawing::plan(moment, {900, 500}));
            CHECK(legible::hasText(labels, "not to scale"));
            CHECK(legible::hasText(labels, "Fridge"));
        }
    }
}

TEST_CASE("the program writes pictures and refuses what it cannot draw", "[drawing][cli]") {
    const Scratch folder;
    const std::string scene = std::string(EBBLINE_SOURCE_DIR) + "/scenes/quay-02.toml";
    const std::string file = (folder.path() / "wall.png").string();
    const auto draw = [&](const std::string& options) {
        return runs::program("picture " + scene + " " + options + " 2>&1");
    };

    SECTION("a PNG of the size asked for, the same bytes twice, without a display") {
        const std::string once = "--room --at 0.42 --size 1024x768 --paper dark -o " + file;
        const runs::Output first = runs::program("picture " + scene + " " + once);
        CHECK(first.text.empty());
        REQUIRE(first.status == 0);
        const std::string png = contentOf(file);
        REQUIRE(png.size() > 5000);
        CHECK(png.substr(1, 3) == "PNG");
        CHECK(png.substr(16, 8) == std::string("\0\0\x04\0\0\0\x03\0", 8));
        REQUIRE(draw(once).status == 0);
        CHECK(contentOf(file) == png);
    }

    SECTION("an SVG of one picture") {
        const std::string svg = (folder.path() / "gap.svg").string();
        REQUIRE(draw("--gap --at 0.42 -o " + svg).status == 0);
        CHECK_THAT(contentOf(svg), Catch::StartsWith("<svg xmlns") && Contains("gap-chart"));
    }

    SECTION("what is wrong with the command line is said before anything is simulated") {
        const auto refused = [&](const std::string& options, const std::string& message) {
            const runs::Output output = draw(options);
            CAPTURE(options, output.text);
            CHECK(output.status != 0);
            CHECK_THAT(output.text, Contains(message));
        };
        refused("-o wall.jpg", "'wall.jpg', expected a name that ends in .png or .svg");
        refused("--size 100x100 -o " + file, "100x100, expected at least 320x240");
        refused("--size 9000x900 -o " + file, "9000x900, expected at most 8000");
        refused("--size large -o " + file, "like 1600x1000, found 'large'");
        refused("--size 1600x1000x3 -o " + file, "like 1600x1000");
        refused("-o /no/such/folder/wall.png", "cannot write '/no/such/folder/wall.png'");
        refused("--gap --room -o " + file, "excludes");
        refused("--paper blue -o " + file, "blue");
        refused("--room --at 900 -o " + file, "--at is 900, expected a time from");
    }
}
