// SPDX-License-Identifier: MIT
// What --help says around the options, in the reader's language.
#include "help.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <sstream>
#include <string_view>
#include <utility>
#include <vector>

namespace ebbline::cli {
namespace {

using Example = std::pair<const char*, const char*>;
constexpr std::array<Example, 12> examples{
    {{"ebbline start", phrase("the scene inside the program")},
     {"ebbline start scenes/quay-02.toml", phrase("verdict, where the voltage is lost, events")},
     {"ebbline start scenes/quay-02.toml --json -", phrase("one JSON object, nothing else")},
     {"ebbline start scenes/quay-02.toml --expect starts --set twin.area_mm2=6", nullptr},
     {"ebbline hours scenes/quay-01.toml",
      phrase("ampere-hours of a day, how long the battery lasts")},
     {"ebbline check scenes/quay-02.toml", phrase("how it is wired: loop, fuses, what is open")},
     {"ebbline report scenes/quay-02.toml -o start.html",
      phrase("one page that plays it, also for paper")},
     {"ebbline handout scenes/quay-02.toml -o class.html",
      phrase("a sheet for a class; --answers for its trainer")},
     {"ebbline picture scenes/quay-02.toml --room -o wall.png", nullptr},
     {"ebbline parts --keys", phrase("every key of every kind of part")},
     {"ebbline unit --nominal 12 --cut-out 10.4 --cut-in 11.7 --start-a 9.5 --running-a 4.8",
      nullptr},
     {"ebbline deck scenes/quay-02.toml | ngspice -n -b -r out.raw /dev/stdin", nullptr}}};

/// Headings and marks that the library sets itself.
constexpr std::array<const char*, 7> labels{phrase("Usage"),
                                            phrase("OPTIONS"),
                                            phrase("SUBCOMMAND"),
                                            phrase("Positionals"),
                                            phrase("REQUIRED"),
                                            phrase("Needs"),
                                            phrase("Excludes")};

/// What the library says of a wrong command line.
constexpr std::array complaints{
    phrase("Run with {} for more information."),
    phrase("The following argument was not expected: {}"),
    phrase("The following arguments were not expected: {}"),
    phrase("A subcommand is required"),
    phrase("{} is required"),
    phrase("{} requires {}"),
    phrase("{} excludes {}"),
    phrase("{}: {} required {} missing"),
    phrase("{}: At least {} required but received {}"),
    phrase("{}: At Most {} required but received {}"),
    phrase("{}: Value {} not in range {} to {}"),
    phrase("{}: {} not in {}"),
    phrase("{}: too many inputs for a flag"),
    phrase("{}: Should be true/false or a number"),
    phrase("{} was given a disallowed flag override"),
    phrase("Could not convert: {} = {}"),
};

/// Its words for a wrong command line, line by line in the reader's language.
std::string complain(const CLI::App* app, const CLI::Error& error) {
    std::istringstream said(CLI::FailureMessage::simple(app, error));
    std::string out;
    for (std::string line; std::getline(said, line);)
        out += fromEnglish(line, complaints) + "\n";
    return out;
}

std::string footer() {
    std::string out = "\n" + words("Examples:") + "\n";
    for (const auto& [command, says] : examples)
        out += says == nullptr ? fmt::format("  {}\n", command)
                               : fmt::format("  {:<45}   {}\n", command, words(says));
    return out + "\n" +
           words("Exit status: 0 ran, whatever the fridge did; 1 another outcome than --expect; "
                 "2 command line;\n3 errors in the scene or the models; 4 the simulation failed; "
                 "5 internal error; 130 interrupted");
}

} // namespace

std::string languageOfHelp(int argc, char** argv) {
    constexpr std::string_view option = "--language";
    for (int i = 1; i < argc; ++i) {
        std::string_view word = argv[i];
        if (word == option && i + 1 < argc)
            word = argv[i + 1];
        else if (word.starts_with(option) && word.substr(option.size()).starts_with('='))
            word.remove_prefix(option.size() + 1);
        else
            continue;
        const std::vector<std::string> known = languages();
        if (std::ranges::count(known, word) > 0)
            return std::string(word);
    }
    return languageOfEnvironment();
}

void addHelp(CLI::App& app) {
    app.description(
        words("Shows where the supply voltage of a 12 or 24 V compressor fridge goes while it "
              "starts."));
    app.footer(footer());
    app.failure_message(complain);
    for (const char* label : labels)
        app.get_formatter()->label(label, words(label));
    app.option_defaults()->group(words("Options"));
    app.set_help_flag("-h,--help", words("Print this help message and exit"));
    app.set_version_flag("--version",
                         std::string("ebbline ") + EBBLINE_VERSION,
                         words("Display program version information and exit"));
}

} // namespace ebbline::cli
