// SPDX-License-Identifier: MIT
// The survey and the lists of parts as people read them.
#include "drawn.h"

#include "ebbline/report.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

std::string written(const Installation& drawn) {
    const Network network = network::build(drawn, file::embeddedModels().catalogues);
    return report::writeSurvey(network, network::survey(network));
}

Part& partOf(Installation& drawn, const std::string& id) {
    return *std::ranges::find(drawn.parts, id, &Part::id);
}

std::string listed(const report::Listing& listing) {
    return report::writeParts(file::embeddedModels().catalogues, listing);
}

} // namespace

TEST_CASE("a sound loop is reported with its way, its fuse and what is not fused", "[report]") {
    // first 1 m, second 1.5 m, third 2.5 m, return 5 m.
    const std::string text = written(drawn::loop({}));
    CHECK_THAT(text, Contains("Supply loop      closed, house to fridge and back, 92 mΩ\n"));
    CHECK_THAT(text,
               Contains("  plus side      first 1.00 m of 2.5 mm², main-switch, second 1.50 m of "
                        "2.5 mm², main-fuse,\n"
                        "                 third 2.50 m of 2.5 mm², 6 joints\n"));
    CHECK_THAT(text, Contains("  minus side     return 5.00 m of 2.5 mm², 2 joints\n"));
    CHECK_THAT(text,
               Contains("Fuses            main-fuse 15 A: thinnest behind it third 2.50 m of 2.5 "
                        "mm²; feeds fridge\n"));
    CHECK_THAT(text, Contains("Not fused        from house: first 1.00 m of 2.5 mm², second"));
    CHECK_THAT(text, Contains("Open             nothing\n"));
    CHECK_THAT(text, Contains("\nCare: "));
}

TEST_CASE("no caution is given where no source reaches anything", "[report]") {
    Installation drawn = drawn::loop({});
    std::erase_if(drawn.runs,
                  [](const Run& run) { return run.id == "first" || run.id == "second"; });
    std::erase_if(drawn.parts, [](const Part& part) { return part.id == "house"; });
    const std::string text = written(drawn);
    CHECK_THAT(text, Contains("Not fused        nothing\n"));
    CHECK_THAT(text, !Contains("Care"));
}

TEST_CASE("what is wrong stands in capitals or by its name", "[report]") {
    Installation drawn = drawn::loop({});
    std::get<Isolator>(partOf(drawn, "main-switch").body).closed = false;
    CHECK_THAT(written(drawn), Contains("Supply loop      NOT CLOSED: open at main-switch\n"));
    CHECK_THAT(written(drawn), Contains("Open             switched off: main-switch\n"));

    drawn = drawn::loop({});
    std::swap(drawn::runOf(drawn, "third").cores[0].to, drawn::runOf(drawn, "return").cores[0].to);
    CHECK_THAT(written(drawn), Contains("PLUS AND MINUS ARE EXCHANGED"));
    CHECK_THAT(written(drawn), Contains("Wrong            fridge: plus and minus are exchanged\n"));

    drawn = drawn::loop({});
    drawn.runs.pop_back();
    CHECK_THAT(written(drawn), Contains("NOT CLOSED: no way is drawn"));
}

TEST_CASE("a title cannot write on the terminal", "[report]") {
    Installation drawn = drawn::loop({});
    drawn.title = "red \x1b[31m";
    CHECK_THAT(written(drawn), Contains("red \\x1B[31m") && !Contains("\x1b"));
}

TEST_CASE("the lists of parts hold every kind, every key and every catalogue", "[report]") {
    const std::string terminals = listed({.terminals = true});
    for (const std::string& kind : installation::kinds())
        CHECK_THAT(terminals, Contains("\n  " + kind + " "));
    const std::string keys = listed({.keys = true});
    CHECK_THAT(keys, Contains("  charge_pct          0 to 100 %; state; state of charge\n"));
    CHECK_THAT(keys, Contains("  nominal_v           12 or 24 V; drawn;"));
    CHECK_THAT(keys, Contains("  condition           new, tired, corroded or loose; quality;"));
    const auto lines = std::ranges::count(keys, ';');
    CHECK(lines >= 2 * static_cast<std::ptrdiff_t>(installation::keys().size()));
    const std::string catalogues = listed({.catalogues = true});
    const Catalogues& all = file::embeddedModels().catalogues;
    for (const auto& [name, sizes] : all.conductors)
        CHECK_THAT(catalogues, Contains("\n  " + name + " "));
    for (const auto& [name, conditions] : all.joints)
        CHECK_THAT(catalogues, Contains("\n  " + name + " "));
    for (const auto& [kind, models] : all.parts)
        for (const auto& [name, values] : models)
            CHECK_THAT(catalogues, Contains("\n  " + name + " "));
}

TEST_CASE("lines break behind commas and never within a value", "[report]") {
    Installation drawn = drawn::loop({});
    for (Run& run : drawn.runs) {
        const std::string old = run.id;
        run.id = "a-run-with-a-rather-long-name-" + old;
    }
    std::istringstream text(written(drawn));
    std::string line;
    while (std::getline(text, line)) {
        INFO(line);
        CHECK_FALSE(line.ends_with(' '));
        CHECK_FALSE(line.ends_with(" m"));
        CHECK_FALSE(line.ends_with(" of"));
        CHECK(text::width(line) <= 100);
    }
}
