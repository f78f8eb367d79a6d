// SPDX-License-Identifier: MIT
// Many starts into a table: each row is the start it would be alone, and an interruption costs
// none.
#include "drawn.h"
#include "runs.h"
#include "scratch.h"

#include "ebbline/file.h"
#include "ebbline/many.h"

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <fstream>
#include <iterator>
#include <sstream>
#include <thread>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

Cases lengths(const std::vector<double>& metres) {
    Variation variation{.path = "twin.length_m", .values = {}};
    for (const double length_m : metres)
        variation.values.emplace_back(length_m);
    return {.listed = {}, .variations = {variation}};
}

std::string read(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

void writeFile(const std::filesystem::path& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

const std::string eight_cases =
    "ebbline = 1\nwhat = \"cases\"\n[[case]]\nname = \"one, \\\"two\\\"\"\n"
    "[[vary]]\nkey = \"twin.length_m\"\nfrom = 1\nto = 8\nsteps = 8\n";

std::ptrdiff_t linesOf(const std::string& text) {
    return std::ranges::count(text, '\n');
}

} // namespace

TEST_CASE("a row of many is the start it would be alone", "[many]") {
    const Installation scene = drawn::scene("quay-02.toml");
    const Models& models = file::embeddedModels();
    const Cases cases = lengths({2, 6, 12});
    const auto pool = runs::makePool();
    std::vector<Row> rows;
    CHECK(study::runMany(
        *pool, scene, models, cases, {}, [&](const Row& row) { rows.push_back(row); }, {}));
    REQUIRE(rows.size() == 3);
    int tripped = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Installation changed = installation::apply(scene, cases.at(i).changes);
        const Examination alone =
            study::runStartAlone(*pool, changed, models, [](const std::string&) {});
        CHECK(rows[i].error.empty());
        CHECK(rows[i].what.number == i + 1);
        CHECK(rows[i].outcome == alone.start.outcome);
        CHECK(rows[i].verdict.margin == alone.verdict.margin);
        CHECK(rows[i].verdict.headroom_v.value() ==
              Approx(alone.verdict.headroom_v.value()).margin(1e-6));
        CHECK(rows[i].lowest_v.value() == Approx(alone.start.lowest_v.value()).margin(1e-6));
        CHECK(rows[i].loop_ohm.value() == alone.loop_ohm);
        tripped += rows[i].outcome == Outcome::Trips ? 1 : 0;
    }
    CHECK(tripped >= 1);
    CHECK(tripped <= 2);
}

TEST_CASE("a case that cannot be run is a row with its reason, in its place", "[many]") {
    Variation sizes{.path = "twin.area_mm2", .values = {Value(2.5), Value(3.3), Value(6.0)}};
    std::vector<Row> rows;
    const auto pool = runs::makePool();
    CHECK(study::runMany(*pool,
                         drawn::scene("quay-02.toml"),
                         file::embeddedModels(),
                         {.listed = {}, .variations = {sizes}},
                         {.accuracy = Accuracy::Draft},
                         [&](const Row& row) { rows.push_back(row); },
                         {}));
    REQUIRE(rows.size() == 3);
    CHECK(rows[0].error.empty());
    CHECK_THAT(rows[1].error, Contains("3.3"));
    CHECK(rows[2].error.empty());
    for (std::size_t i = 0; i < rows.size(); ++i)
        CHECK(rows[i].what.number == i + 1);
}

TEST_CASE("a table that was interrupted goes on where it was", "[many]") {
    const Scratch scratch;
    const auto cases = scratch.path() / "cases.toml";
    const auto table = scratch.path() / "table.csv";
    const auto part = scratch.path() / "table.csv.part";
    writeFile(cases, eight_cases);
    const std::string scene = EBBLINE_SOURCE_DIR "/scenes/quay-02.toml";
    const std::string command = "start " + scene + " --each " + cases.string() + " -o ";
    REQUIRE(runs::program(command + (scratch.path() / "whole.csv").string()).status == 0);
    const std::string whole = read(scratch.path() / "whole.csv");
    CHECK(linesOf(whole) == 9);
    CHECK_THAT(whole, Contains("1,\"one, \"\"two\"\"\",1,starts,"));

    const pid_t program = fork();
    if (program == 0) {
        const std::string each = cases.string();
        const std::string output = table.string();
        execl(EBBLINE_PROGRAM,
              EBBLINE_PROGRAM,
              "start",
              scene.c_str(),
              "--each",
              each.c_str(),
              "-o",
              output.c_str(),
              nullptr);
        _exit(1);
    }
    for (int i = 0; i < 6000 && (!std::filesystem::exists(part) || linesOf(read(part)) < 5); ++i)
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    kill(program, SIGKILL);
    waitpid(program, nullptr, 0);
    CHECK_FALSE(std::filesystem::exists(table));
    const std::string half = read(part);
    REQUIRE(linesOf(half) >= 5); // its content, the head, three rows
    REQUIRE(linesOf(half) < 10);
    writeFile(part, half + "8,\"one, \"\"tw"); // as if cut off within a line
    CHECK(runs::program(command + table.string()).status == 0);
    CHECK(read(table) == whole);
    CHECK_FALSE(std::filesystem::exists(part));

    // Another list of cases is not mixed in, and nothing is lost.
    writeFile(part, half);
    CHECK(runs::program(command + table.string() + " --draft 2>&1").status == 3);
    CHECK(read(part) == half);
}

TEST_CASE("lines of JSON hold what the CSV does", "[many]") {
    const Scratch scratch;
    const auto cases = scratch.path() / "cases.toml";
    writeFile(cases, eight_cases);
    const std::string command = std::string("start " EBBLINE_SOURCE_DIR "/scenes/quay-02.toml") +
                                " --draft --each " + cases.string();
    REQUIRE(runs::program(command + " -o " + (scratch.path() / "t.jsonl").string()).status == 0);
    const std::string lines = read(scratch.path() / "t.jsonl");
    CHECK(linesOf(lines) == 8);
    CHECK_THAT(lines, Contains(R"({"case":1,"name":"one, \"two\"","set":{"twin.length_m":1.0},)"));
    CHECK_THAT(lines, Contains(R"("error":null})"));
    const runs::Output csv = runs::program(command);
    CHECK(csv.status == 0);
    CHECK(linesOf(csv.text) == 9);
}
