// SPDX-License-Identifier: MIT
// Words in the reader's language: fallbacks, the decimal mark, conductor sizes in both scales.
#include "reading_as.h"

#include "ebbline/error.h"
#include "ebbline/network.h"
#include "ebbline/report.h"
#include "ebbline/rules.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <catch2/catch.hpp>

#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <system_error>
#include <vector>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

/// What the environment says for as long as this lives.
class Environment {
public:
    explicit Environment(const char* value) {
        if (const char* before = std::getenv("LC_ALL"))
            m_before = before;
        ::setenv("LC_ALL", value, 1);
    }
    ~Environment() {
        if (m_before)
            ::setenv("LC_ALL", m_before->c_str(), 1);
        else
            ::unsetenv("LC_ALL");
    }
    Environment(const Environment&) = delete;
    Environment& operator=(const Environment&) = delete;

private:
    std::optional<std::string> m_before;
};

std::string languageUnder(const char* environment) {
    const Environment set(environment);
    return languageOfEnvironment();
}

std::string sizeOf(SizeScale scale, double value, Sizes sizes) {
    return network::sizeWords({scale, value}, sizes);
}

} // namespace

TEST_CASE("a text that no table has stays as it is", "[words]") {
    CHECK(words("of no table at all") == "of no table at all");
    const ReadingAs german({.language = "de"});
    CHECK(words("of no table at all") == "of no table at all");
    CHECK(words("battery") == "Batterie");
    CHECK(term("bus-bar") == "Sammelschiene");
}

TEST_CASE("a translation whose places do not fit falls back to English", "[words]") {
    const char* const text = "{} of {}";
    CHECK(filled("{1} aus {0}", text, "two", "three") == "three aus two");
    CHECK(filled("{} aus {} und {}", text, "two", "three") == "two of three");
    CHECK(filled("{0} aus {7}", text, "two", "three") == "two of three");
    CHECK(filled("{ aus {}", text, "two", "three") == "two of three");
    CHECK(filled("{:d} aus {}", text, "two", "three") == "two of three");
}

TEST_CASE("a text that others wrote in English is said in the reader's language", "[words]") {
    const std::vector<const char*> sentences{
        "expected {}, saw {}", "value", "cannot redefine existing {} '{}'", "expected {}"};
    const std::vector<std::string> texts{"expected value, saw value",
                                         "expected 'value', saw 'x, saw y'",
                                         "cannot redefine existing value 'value'",
                                         "expected expected expected expected expected expected x",
                                         "expected {}, saw {0}",
                                         "nothing of the kind",
                                         ""};
    for (const std::string& text : texts)
        CHECK(fromEnglish(text, sentences) == text);
    const ReadingAs german({.language = "de"});
    CHECK(fromEnglish(texts[0], sentences) == "erwartet wird Wert, gefunden: Wert");
    // What is in quotes is somebody's own.
    CHECK(fromEnglish(texts[1], sentences) == "erwartet wird 'value', gefunden: 'x, saw y'");
    CHECK(fromEnglish(texts[2], sentences) == "„value“ steht schon da, als Wert");
    CHECK(fromEnglish(texts[4], sentences) == "erwartet wird {}, gefunden: {0}");
    CHECK(fromEnglish(texts[5], sentences) == texts[5]);
    CHECK(fromEnglish(std::string(100000, 'x'), sentences).size() == 100000);
}

TEST_CASE("sentences within sentences without end are not followed", "[words]") {
    const std::vector<const char*> sentences{"called solved, but {}"};
    std::string text = "x";
    for (int i = 0; i < 100000; ++i)
        text.insert(0, "called solved, but ");
    CHECK(fromEnglish(text, sentences) == text);
    const ReadingAs german({.language = "de"});
    const std::string said = fromEnglish(text, sentences);
    CHECK(said.starts_with("als gelöst gemeldet, aber als gelöst gemeldet, aber "));
    CHECK(said.ends_with("called solved, but x"));
}

TEST_CASE("what the system refuses is said in the reader's language", "[words]") {
    const std::system_error none(ENOENT, std::generic_category(), "cannot read 'x'");
    const std::filesystem::filesystem_error folder(
        "directory iterator cannot open directory", "x", none.code());
    const std::system_error odd(EBADMSG, std::generic_category(), "poll");
    CHECK(describe(none) == none.what());
    CHECK(describe(folder) == folder.what());
    CHECK(describe(odd) == odd.what());
    const ReadingAs german({.language = "de"});
    CHECK(describe(none) == "cannot read 'x': Datei oder Ordner gibt es nicht");
    CHECK(describe(folder) ==
          "Ordner lässt sich nicht öffnen: Datei oder Ordner gibt es nicht [x]");
    CHECK(describe(odd) == odd.what()); // rare enough to stay the system's
}

TEST_CASE("people read the decimal mark of their language, files a point", "[words]") {
    CHECK(text::fixed(10.345, 2) == "10.35");
    CHECK(text::figure(0.75) == "0.75");
    const ReadingAs german({.language = "de"});
    CHECK(text::fixed(10.345, 2) == "10,35");
    CHECK(text::fixed(std::nullopt, 2) == "-");
    CHECK(text::figure(0.75) == "0,75");
    CHECK(text::figure(4) == "4");
    CHECK(text::number(0.75) == "0.75");
}

TEST_CASE("the environment says the language, if there is such a table", "[words]") {
    CHECK(languageUnder("de_AT.UTF-8") == "de");
    CHECK(languageUnder("de") == "de");
    CHECK(languageUnder("en_GB.UTF-8") == "en");
    CHECK(languageUnder("fr_FR.UTF-8") == "en");
    CHECK(languageUnder("C") == "en");
    // A language of its own, whose code begins alike.
    CHECK(languageUnder("den_CA") == "en");
    CHECK_THROWS_AS(setReader({.language = "fr"}), std::invalid_argument);
    CHECK(reader().language == "en");
}

TEST_CASE("conductor sizes are written as drawn, in mm2, as a gauge or both", "[words]") {
    SECTION("a cross-section has the nearest gauge that is sold") {
        // ASTM B258: AWG 14 has 2.08 mm2, 13 2.62; 10 5.26, 9 6.63, 8 8.37; 2/0 67.4.
        CHECK(sizeOf(SizeScale::Mm2, 2.5, Sizes::Drawn) == "2.5 mm2");
        CHECK(sizeOf(SizeScale::Mm2, 2.5, Sizes::Mm2) == "2.5 mm2");
        CHECK(sizeOf(SizeScale::Mm2, 2.5, Sizes::Awg) == "about AWG 14");
        CHECK(sizeOf(SizeScale::Mm2, 6, Sizes::Both) == "6 mm2 (about AWG 10)");
        CHECK(sizeOf(SizeScale::Mm2, 70, Sizes::Both) == "70 mm2 (about AWG 2/0)");
    }
    SECTION("a gauge has its area") {
        // ASTM B258: AWG 18 0.823 mm2, 12 3.31 mm2, 1/0 53.5 mm2, 4/0 107 mm2.
        CHECK(sizeOf(SizeScale::Awg, 12, Sizes::Drawn) == "AWG 12");
        CHECK(sizeOf(SizeScale::Awg, 12, Sizes::Awg) == "AWG 12");
        CHECK(sizeOf(SizeScale::Awg, 18, Sizes::Mm2) == "0.823 mm2");
        CHECK(sizeOf(SizeScale::Awg, 12, Sizes::Both) == "AWG 12 (3.31 mm2)");
        CHECK(sizeOf(SizeScale::Awg, 0, Sizes::Both) == "AWG 1/0 (53.5 mm2)");
        CHECK(sizeOf(SizeScale::Awg, -3, Sizes::Mm2) == "107 mm2");
    }
    SECTION("a rule's cross-sections stay beside their gauge, or a small step would not show") {
        const RuleFinding finding{.rule = "return-size",
                                  .value = 1.5,
                                  .limit = 1.52,
                                  .limit_is_least = true,
                                  .unit = "mm2"};
        const auto figures = [&](Sizes sizes) {
            const ReadingAs reading({.sizes = sizes});
            return report::writeRules({&finding, 1});
        };
        CHECK_THAT(figures(Sizes::Drawn), Contains("1.50 mm2, at least 1.52 mm2"));
        CHECK_THAT(figures(Sizes::Awg),
                   Contains("1.5 mm2 (about AWG 16), at least 1.52 mm2 (about AWG 16)"));
    }
    SECTION("in the reader's language") {
        const ReadingAs german({.language = "de", .sizes = Sizes::Both});
        CHECK(network::sizeWords({SizeScale::Mm2, 2.5}) == "2,5 mm2 (etwa AWG 14)");
    }
}
