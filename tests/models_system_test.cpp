// SPDX-License-Identifier: MIT
// A folder of models given on the command line decides the result.
#include "runs.h"
#include "scratch.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

using namespace ebbline;

namespace {

/// Replaces `before`, which must be there, in a file of the folder.
void edit(const std::filesystem::path& path, const std::string& before, const std::string& after) {
    std::ifstream in(path);
    std::string text{std::istreambuf_iterator<char>(in), {}};
    const auto at = text.find(before);
    REQUIRE(at != std::string::npos);
    std::ofstream(path) << text.replace(at, before.size(), after);
}

} // namespace

TEST_CASE("a number changed in a copy of the models changes the result", "[models]") {
    const Scratch scratch;
    const auto source = std::filesystem::path(EBBLINE_SOURCE_DIR);
    const auto copy = scratch.path() / "models";
    std::filesystem::copy(source / "models", copy);
    const auto json = [&] {
        const auto output = runs::program("start '" + (source / "scenes/quay-03.toml").string() +
                                          "' --models '" + copy.string() + "' --json -");
        CHECK(output.status == 0);
        return output.text;
    };
    const std::string same = json();
    CHECK(same ==
          runs::program("start '" + (source / "scenes/quay-03.toml").string() + "' --json -").text);
    edit(copy / "batteries.toml", "resistance_mohm_ah = 400", "resistance_mohm_ah = 800");
    const std::string other_battery = json();
    CHECK(other_battery != same);
    edit(copy / "conductors.toml", "[2.5, 7.98]", "[2.5, 9.98]");
    CHECK(json() != other_battery);
}
