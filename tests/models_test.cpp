// SPDX-License-Identifier: MIT
// Catalogues and circuits, inside the program and from a folder.
#include "scratch.h"

#include "ebbline/embedded.h"
#include "ebbline/error.h"
#include "ebbline/file.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <sstream>

using namespace ebbline;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

void write(const std::filesystem::path& path, std::string_view text) {
    std::ofstream(path, std::ios::binary) << text;
}

/// The program's own models as a folder.
void writeModels(const std::filesystem::path& folder) {
    for (const embedded::File& file : embedded::all())
        if (file.name != "first-scene.toml" && file.name != "spinit")
            write(folder / file.name, file.text);
}

std::string modelsComplaint(const std::filesystem::path& folder) {
    try {
        static_cast<void>(file::readModels(folder));
    } catch (const SceneError& error) {
        return error.what();
    }
    return "";
}

} // namespace

TEST_CASE("catalogues hold what was published", "[models]") {
    // Source: IEC 60228:2004 tables 2 and 3, mohm/m.
    const auto& conductors = catalogues().conductors;
    REQUIRE(conductors.size() == 6);
    for (const auto* name : {"class-2", "class-2-tinned", "class-5", "class-5-tinned"})
        CHECK(conductors.at(name).size() == 14);
    // ISO 6722-1, from memory: vehicle cable of 2.5 mm2 lies between class 2 and class 5.
    CHECK(conductors.at("vehicle").at(2.5) > conductors.at("class-2").at(2.5));
    CHECK(conductors.at("vehicle").at(2.5) < conductors.at("class-5").at(2.5));
    CHECK(conductors.at("class-2").at(0.5) == 36.0);
    CHECK(conductors.at("class-2-tinned").at(25) == 0.734);
    CHECK(conductors.at("class-5").at(95) == 0.206);
    CHECK(conductors.at("class-5-tinned").at(1.5) == 13.7);
    // From memory: typical medium blade fuses; the rule 90 / rating^1.1 fits them within 16 %.
    REQUIRE(catalogues().fuses.size() == 8);
    for (const auto& [rating_a, mohm] : catalogues().fuses)
        CHECK(mohm == Approx(90 / std::pow(rating_a, 1.1)).epsilon(0.16));
    // Estimates: the worse the condition, the higher.
    REQUIRE(catalogues().joints.size() == 10);
    for (const auto& [kind, mohm] : catalogues().joints) {
        if (kind == "none")
            continue; // of one piece
        CHECK(mohm.at("new") < mohm.at("tired"));
        CHECK(mohm.at("tired") < mohm.at("loose"));
        CHECK(mohm.at("loose") < mohm.at("corroded"));
    }
    CHECK(std::get<double>(catalogues().parts.at("battery").at("wet-lead-60").at("capacity_ah")) ==
          60);
}

TEST_CASE("models of a folder are the same as those inside the program", "[models]") {
    const Scratch scratch;
    writeModels(scratch.path());
    write(scratch.path() / "README.md", "not a model");
    const Models read = file::readModels(scratch.path());
    const Models& own = file::embeddedModels();
    CHECK(read.circuits == own.circuits);
    CHECK(read.catalogues.conductors == own.catalogues.conductors);
    CHECK(read.catalogues.joints == own.catalogues.joints);
    CHECK(read.catalogues.fuses == own.catalogues.fuses);
    CHECK(read.catalogues.parts == own.catalogues.parts);
}

TEST_CASE("a changed number in a folder of models is the one that counts", "[models]") {
    const Scratch scratch;
    writeModels(scratch.path());
    write(scratch.path() / "fuses.toml", R"(ebbline = 1
what = "parts"
[[fuse-element]]
source = "measured"
certainty = "memory"
rating_a = 16
resistance_mohm = 4
)");
    const Models models = file::readModels(scratch.path());
    CHECK(models.catalogues.fuses == std::map<double, double>{{16, 4}});
}

TEST_CASE("bad catalogues are told all that is wrong with them, with their path", "[models]") {
    const Scratch scratch;
    writeModels(scratch.path());
    const std::string head = "ebbline = 1\nwhat = \"parts\"\n";
    write(scratch.path() / "fuses.toml",
          head + "[[fuse-element]]\nsource = 5\ncertainty = \"sure\"\nrating_a = 0\nohm = 3\n");
    write(scratch.path() / "more.toml",
          head + "[[joint]]\nkind = \"glue\"\nsource = \"x\"\ncertainty = \"memory\"\n"
                 "new_mohm = -1\n[[conductor]]\nid = \"class-5\"\nsource = \"x\"\n"
                 "certainty = \"memory\"\nmohm_per_m = [[1, nan], [2, 3], [2, 4], 5]\n"
                 "[[battery]]\nid = \"wet-lead-60\"\ncharge_pct = 400\n[[boiler]]\n");
    write(scratch.path() / "scene.toml", "ebbline = 1\n");
    const std::string folder = scratch.path().string();
    const std::string said = modelsComplaint(scratch.path());
    std::string found;
    std::istringstream lines(said);
    for (std::string row; std::getline(lines, row);)
        if (row.starts_with(folder))
            found += row.substr(folder.size() + 1) + "\n";
    CHECK(found ==
          "fuses.toml:3:1: missing 'resistance_mohm'\n"
          "fuses.toml:4:10: 'source' wants a text in quotes\n"
          "fuses.toml:5:13: 'certainty' is 'sure', expected standard, common practice, measured, "
          "memory or ESTIMATE\n"
          "fuses.toml:6:12: 'rating_a' is 0, expected 1e-09 to 1000000000\n"
          "fuses.toml:7:1: unknown key 'ohm' in [[fuse-element]], expected one of certainty, "
          "rating_a, resistance_mohm, source\n"
          "more.toml:3:1: missing 'tired_mohm'\n"
          "more.toml:3:1: missing 'corroded_mohm'\n"
          "more.toml:3:1: missing 'loose_mohm'\n"
          "more.toml:7:12: 'new_mohm' is -1, expected 0 to 1000000000\n"
          "more.toml:8:1: the catalogue has this entry already\n"
          "more.toml:12:19: 'mohm/m' is nan, expected 1e-09 to 1000000000\n"
          "more.toml:12:33: this size has a row already\n"
          "more.toml:12:41: a size wants [mm2, mohm/m]\n"
          "more.toml:13:1: missing 'source'\n"
          "more.toml:13:1: missing 'certainty'\n"
          "more.toml:13:1: the catalogue has this entry already\n"
          "more.toml:15:14: 'charge_pct' is 400, expected 0 to 100\n"
          "more.toml:16:3: unknown key 'boiler' in a catalogue\n"
          "scene.toml:1:1: missing 'what', expected what = \"parts\"\n");
}

TEST_CASE("a folder of models that lacks something says what", "[models]") {
    const Scratch scratch;
    writeModels(scratch.path());
    std::filesystem::remove(scratch.path() / "fuse.lib");
    std::filesystem::remove(scratch.path() / "joints.toml");
    write(scratch.path() / "batteries.toml", R"(ebbline = 1
what = "parts"
[[battery]]
id = "salt-100"
source = "measured"
certainty = "memory"
chemistry = "salt-water"
)");
    const std::string folder = scratch.path().string();
    CHECK(modelsComplaint(scratch.path()) == folder + ": no circuit 'fuse.lib'\n" + folder +
                                                 ": no [[joint]] in any catalogue\n" + folder +
                                                 ": no [[chemistry]] in any catalogue\n");
}

TEST_CASE("a folder of models that is not there is an error of the system", "[models]") {
    const Scratch scratch;
    CHECK_THROWS_AS(file::readModels(scratch.path() / "none"), std::system_error);
}
