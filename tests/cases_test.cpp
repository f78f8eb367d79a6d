// SPDX-License-Identifier: MIT
// Files of cases: what they say, and what is said of wrong ones.
#include "drawn.h"

#include "ebbline/error.h"
#include "ebbline/file.h"

#include <catch2/catch.hpp>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

const std::string head = "ebbline = 1\nwhat = \"cases\"\n";

Cases read(const std::string& text) {
    return file::readCasesText(head + text, "cases.toml", drawn::scene("quay-02.toml"));
}

std::string complaint(const std::string& text) {
    try {
        static_cast<void>(read(text));
    } catch (const SceneError& error) {
        return error.what();
    }
    return "none";
}

} // namespace

TEST_CASE("cases are every combination of the varied keys with every row of the list", "[cases]") {
    const Cases cases = read("[[case]]\nname = \"as it is\"\n"
                             "[[case]]\nset = { \"house.charge_pct\" = 50 }\n"
                             "[[vary]]\nkey = \"twin.length_m\"\nfrom = 2\nto = 4\nsteps = 3\n"
                             "[[vary]]\nkey = \"twin.area_mm2\"\nvalues = [2.5, 6]\n");
    REQUIRE(cases.size() == 12);
    std::vector<std::pair<double, double>> seen;
    for (std::size_t i = 0; i < 6; ++i) {
        const SingleCase one = cases.at(i);
        CHECK(one.number == i + 1);
        CHECK(one.name == "as it is");
        CHECK(one.changes.size() == 2);
        seen.emplace_back(std::get<double>(one.variation[0].second),
                          std::get<double>(one.variation[1].second));
    }
    CHECK(seen == std::vector<std::pair<double, double>>{
                      {2, 2.5}, {2, 6}, {3, 2.5}, {3, 6}, {4, 2.5}, {4, 6}});
    const SingleCase last = cases.at(11);
    CHECK(last.changes == std::vector<Change>{Set{"house.charge_pct", 50.0},
                                              Set{"twin.length_m", 4.0},
                                              Set{"twin.area_mm2", 6.0}});
}

TEST_CASE("a file of cases may take conditions of the scene, and may be empty", "[cases]") {
    const Installation scene = drawn::scene("cabin-02.toml");
    const Cases cases = file::readCasesText(
        head + "[[case]]\nwith = [\"night\"]\nset = { \"surroundings.ambient_c\" = 5 }\n",
        "cases.toml",
        scene);
    std::vector<Change> expected = scene.findChangeSet("night")->changes;
    expected.emplace_back(Set{"surroundings.ambient_c", 5.0});
    CHECK(cases.at(0).changes == expected);
    CHECK(read("").size() == 1);
    CHECK(read("").at(0).changes.empty());
}

TEST_CASE("what is wrong in a file of cases is said with its place", "[cases]") {
    CHECK_THAT(complaint("[[vary]]\nkey = \"twin.lenght_m\"\nvalues = [1]\n"),
               Contains("cases.toml:4:7:") && Contains("length_m"));
    CHECK_THAT(complaint("[[vary]]\nkey = \"twin.length_m\"\nvalues = [1, -2]\n"),
               Contains("cases.toml:5:14:"));
    CHECK_THAT(complaint("[[vary]]\nkey = \"twin.length_m\"\nfrom = 1\nto = 2\n"),
               Contains("wants 'values'"));
    CHECK_THAT(complaint("[[vary]]\nkey = \"twin.conductor\"\nfrom = 1\nto = 2\nsteps = 2\n"),
               Contains("wants 'values'"));
    CHECK_THAT(complaint("[[vary]]\nkey = \"twin.length_m\"\nvalues = []\n"),
               Contains("without values"));
    CHECK_THAT(complaint("[[case]]\nwith = [\"noon\"]\n"), Contains("'noon'"));
    CHECK_THAT(complaint("[[case]]\nset = { \"house.charge_pct\" = \"full\" }\n"),
               Contains("cases.toml:4:30:"));
    CHECK_THAT(complaint("[[case]]\nsets = {}\n"), Contains("unknown key 'sets' in a case"));
    CHECK_THAT(complaint("[[each]]\n"), Contains("unknown key 'each' in a file of cases"));
    std::string many;
    for (const char* key : {"twin.length_m", "house.charge_pct", "house.age_pct"})
        many += "[[vary]]\nkey = \"" + std::string(key) + "\"\nfrom = 1\nto = 2\nsteps = 101\n";
    CHECK_THAT(complaint(many), Contains("more than 1000000 cases"));
    CHECK_THROWS_WITH(
        file::readCasesText("ebbline = 1\n", "cases.toml", drawn::scene("quay-02.toml")),
        Contains("what = \"cases\""));
}
