// SPDX-License-Identifier: MIT
// Nothing that is written in a scene does more than stand there: no command, no escape, no way out.
#include "hostile.h"
#include "mutant.h"
#include "scratch.h"

#include "ebbline/error.h"
#include "ebbline/file.h"
#include "ebbline/netlist.h"
#include "ebbline/report.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <chrono>
#include <fstream>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

Document read(const std::string& text) {
    return file::readText(
        text, "hostile.toml", file::embeddedModels().catalogues, mutants::completeFolder());
}

/// What is said about a bad text; empty for a good one.
std::string complaint(const std::string& text) {
    try {
        static_cast<void>(read(text));
    } catch (const SceneError& error) {
        return error.what();
    }
    return "";
}

/// The circuits of a scene as drawn, with its faults and with each of its sets of changes.
std::vector<std::string> circuitsOf(const Document& document) {
    const Installation& drawn = document.installation;
    std::vector<std::vector<Change>> all{{}, installation::faultChanges(drawn)};
    for (const auto* sets : {&drawn.conditions, &drawn.variants, &drawn.setups})
        for (const ChangeSet& set : *sets)
            all.push_back(set.changes);
    std::vector<std::string> circuits;
    for (const std::vector<Change>& changes : all) {
        const Network network = network::reduce(
            network::build(installation::apply(drawn, changes), document.catalogues));
        circuits.push_back(netlist::build(network, file::embeddedModels(), {}).job.circuit);
    }
    return circuits;
}

/// The least that is a scene, and what comes behind it.
std::string scene(const std::string& more) {
    return "ebbline = 1\n[[part]]\nid = \"fridge\"\nkind = \"controller\"\n" + more;
}

std::string part(const std::string& id, const std::string& more) {
    return "[[part]]\nid = \"" + id + "\"\n" + more + "\n";
}

void write(const std::filesystem::path& path, std::string_view text) {
    std::ofstream(path, std::ios::binary) << text;
}

double secondsFor(const std::string& text) {
    const auto begun = std::chrono::steady_clock::now();
    static_cast<void>(complaint(text));
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
}

} // namespace

TEST_CASE("what is written as free text is read as it was written", "[hostile]") {
    for (const std::string& text : hostile::texts()) {
        const Installation drawn = read(hostile::sceneWith(text)).installation;
        CHECK(drawn.title == text);
        CHECK(drawn.note == text);
        CHECK(drawn.findPart("house")->name == text);
        CHECK(drawn.findRun("twin")->note == text);
        CHECK(drawn.findChangeSet("by-hand")->name == text);
        CHECK(drawn.ways.at(0).name == text);
    }
}

TEST_CASE("no letter of a free text reaches the circuit", "[hostile]") {
    const auto plain = circuitsOf(read(hostile::sceneWith("plain")));
    REQUIRE(plain.size() == 6);
    for (const std::string& text : hostile::texts())
        CHECK((circuitsOf(read(hostile::sceneWith(text))) == plain));
    // The comparison sees what does reach the circuit.
    std::string changed = hostile::sceneWith("plain");
    changed.replace(changed.find("charge_pct = 85"), 15, "charge_pct = 84");
    CHECK((circuitsOf(read(changed))[0] != plain[0]));
}

TEST_CASE("a report shows a hostile title without obeying it", "[hostile]") {
    for (const std::string& text : hostile::texts()) {
        const Document document = read(hostile::sceneWith(text));
        const Inquiry inquiry{
            .examination = {.network = network::build(document.installation, document.catalogues)}};
        const std::string shown = report::writeText(inquiry);
        CHECK(hostile::findControl(shown).empty());
        // A line break in a title makes no line of its own.
        CHECK(shown.starts_with(text::escapeControls(text) + "\n"));
        const auto object = nlohmann::json::parse(report::writeJson(inquiry));
        CHECK(object.at("title").get<std::string>() == text);
    }
}

TEST_CASE("a hostile id is refused at its place and shown without obeying it", "[hostile]") {
    for (const std::string& text : hostile::texts()) {
        const std::string said =
            complaint(scene("[[part]]\nid = " + hostile::quoted(text) + "\nkind = \"fuse\"\n"));
        CHECK_THAT(said, Catch::StartsWith("hostile.toml:6:6: '"));
        CHECK_THAT(said, Contains("is no id, expected"));
        CHECK(hostile::findControl(said).empty());
        CHECK(said.size() < 2000);
    }
}

TEST_CASE("hostile words in every other place are refused and shown without obeying them",
          "[hostile]") {
    for (const std::string& text : hostile::texts()) {
        const std::string word = hostile::quoted(text);
        const std::string said = complaint(
            scene(word + " = 1\n" + "[surroundings]\n" + word + " = 1\n" +
                  part("lamp", "kind = \"load\"\nlaw = " + word) + part("x", "kind = " + word) +
                  part("house", "kind = \"battery\"\nmodel = " + word + "\nchemistry = " + word) +
                  part("shell", "kind = \"chassis\"\nmaterial = " + word) +
                  "[[run]]\nid = \"feed\"\nfrom = " + word + "\nto = \"house." +
                  "plus\"\nawg = " + word + "\nlength_m = 1\nconductor = " + word +
                  "\njoint_to = " + word + "\n[[condition]]\nid = \"cold\"\nset = { " + word +
                  " = 1, \"house." + word.substr(1) + " = 2 }\n[[fault]]\non = " + word +
                  "\nkind = " + word + "\n[[spread]]\non = " + word + "\nlaw = " + word + "\n"));
        CHECK_THAT(said, Contains("hostile.toml:"));
        CHECK(hostile::findControl(said).empty());
        CHECK(said.size() < 20000);
    }
}

TEST_CASE("a scene whose own name is hostile is read, and its errors are shown", "[hostile]") {
    const Scratch scratch;
    for (const char* name : {"a\nb.toml", "\x1b[2J.toml", "\"'`$(x);.toml", "\u202Elmot.toml"}) {
        const auto path = scratch.path() / name;
        write(path, scene(""));
        CHECK(file::read(path, file::embeddedModels().catalogues).installation.parts.size() == 1);
        write(path, scene("wrong"));
        std::string said;
        try {
            static_cast<void>(file::read(path, file::embeddedModels().catalogues));
        } catch (const SceneError& error) {
            said = error.what();
        }
        CHECK_THAT(said, Contains(text::escapeControls(path.string()) + ":5:"));
        CHECK(hostile::findControl(said).empty());
    }
}

TEST_CASE("a file that is not there is named without obeying its name", "[hostile]") {
    std::string said;
    try {
        static_cast<void>(file::readBytes("no\n\x1b[2J\u202E.toml"));
    } catch (const std::system_error& error) {
        said = error.what();
    }
    CHECK_THAT(said, Contains("no\\x0A\\x1B[2J"));
    CHECK(hostile::findControl(said).empty());
}

TEST_CASE("what a scene uses lies below its folder", "[hostile]") {
    const Scratch scratch;
    const auto folder = scratch.path() / "scene";
    std::filesystem::create_directories(folder / "inner");
    const std::string catalogue = file::readBytes(mutants::completeFolder() + "/yard-parts.toml");
    write(scratch.path() / "outside.toml", catalogue);
    write(folder / "inner" / "good.toml", catalogue);
    std::filesystem::create_symlink("../outside.toml", folder / "link.toml");
    std::filesystem::create_symlink("..", folder / "up");
    std::filesystem::create_symlink("inner/good.toml", folder / "inside.toml");
    std::filesystem::create_symlink("/dev/zero", folder / "zero.toml");
    const auto said = [&](const std::string& name) {
        std::string text = scene("");
        text.insert(text.find('\n') + 1, "use = [" + hostile::quoted(name) + "]\n");
        try {
            static_cast<void>(
                file::readText(text, "s.toml", file::embeddedModels().catalogues, folder));
        } catch (const SceneError& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    CHECK(said("inner/good.toml").empty());
    CHECK(said("inside.toml").empty());
    for (const char* name : {"../outside.toml",
                             "inner/../../outside.toml",
                             "/etc/passwd",
                             "link.toml",
                             "up/outside.toml",
                             "zero.toml",
                             "inner",
                             "",
                             ".",
                             "none",
                             "inner/good.toml\n"})
        CHECK_THAT(said(name), Catch::StartsWith("s.toml:2:8: "));
    for (const std::string& text : hostile::texts()) {
        CHECK_THAT(said(text), Catch::StartsWith("s.toml:2:8: "));
        CHECK(hostile::findControl(said(text)).empty());
    }
}

TEST_CASE("marks that change the direction of writing are made visible", "[hostile]") {
    CHECK(text::escapeControls("a\u202Eb\u2066c\u2069\u2028") ==
          "a\\xE2\\x80\\xAEb\\xE2\\x81\\xA6c\\xE2\\x81\\xA9\\xE2\\x80\\xA8");
    // Their neighbours are letters and signs like any other.
    CHECK(text::escapeControls("\u2027\u202F\u2065\u206A ثلاجة") ==
          "\u2027\u202F\u2065\u206A ثلاجة");
}

TEST_CASE("a scene of millions of letters is answered at once", "[hostile]") {
    const auto repeated = [](int count, const auto& block) {
        std::string text = scene("");
        for (int i = 0; i < count; ++i)
            text += block(std::to_string(i));
        return text;
    };
    constexpr double longest_s = 10;
    const std::string long_word(60000, 'y');
    CHECK(secondsFor(repeated(60, [&](const std::string& i) {
              return part("p" + i, "kind = \"" + long_word + "\"");
          })) < longest_s);
    CHECK(
        secondsFor(
            repeated(30000, [](const std::string& i) { return part("p" + i, "kind = \"fuse\""); }) +
            "[[condition]]\nid = \"c\"\nset = { \"" + long_word + ".blown\" = 1 }\n") < longest_s);
    CHECK(secondsFor(repeated(40000, [](const std::string& i) {
              return "[[run]]\nid = \"r" + i + "\"\nfrom = \"a.b\"\nto = \"a.b\"\n";
          })) < longest_s);
    CHECK(secondsFor(repeated(40000, [](const std::string& i) {
              return "[[variant]]\nid = \"v" + i + "\"\n" + part("p" + i, "kind = \"fuse\"");
          })) < longest_s);
    CHECK(secondsFor(repeated(40000, [](const std::string& i) {
              return part("p" + i, "kind = \"fuse\"") + "[[fault]]\non = \"p" + i +
                     "\"\nkind = \"blown-fuse\"\n";
          })) < longest_s);
    std::string conditions =
        repeated(30000, [](const std::string& i) { return part("p" + i, "kind = \"fuse\""); }) +
        "[[condition]]\nid = \"c\"\n[condition.set]\n";
    for (int i = 0; i < 30000; ++i)
        conditions += "\"p" + std::to_string(i) + ".blown\" = true\n";
    CHECK(secondsFor(conditions) < longest_s);
}
