// SPDX-License-Identifier: MIT
// The command line: options, help, exit codes. Also the door through which a worker comes in.
#include "commands.h"
#include "help.h"
#include "hours.h"
#include "many.h"
#include "unit.h"

#include "ebbline/engine.h"
#include "ebbline/start.h"
#include "ebbline/words.h"

#include <CLI/CLI.hpp>

#include <charconv>
#include <clocale>
#include <functional>
#include <iostream>
#include <map>
#include <memory>
#include <string_view>
#include <system_error>
#include <vector>

namespace ebbline::cli {
namespace {

std::vector<std::string> outcomeNames() {
    std::vector<std::string> names;
    for (int i = 0; i <= static_cast<int>(Outcome::NotDriven); ++i)
        names.emplace_back(nameOf(static_cast<Outcome>(i)));
    return names;
}

/// What to do once the command line is read.
using Chosen = std::function<ExitCode()>;

void addScene(CLI::App& command, SceneOptions& options) {
    command.add_option(
        "scene", options.scene, words("scene file (TOML); without it the one inside the program"));
    command.add_option(
        "--models", options.models, words("folder of device models and catalogues to use instead"));
    command
        .add_option("--with",
                    options.with,
                    words("a condition, variant or set-up of the scene; may be repeated"))
        ->take_all()
        ->expected(1);
    command.add_option("--set", options.set, words("one key set, path=value; may be repeated"))
        ->take_all()
        ->expected(1);
}

void addJson(CLI::App& command, std::string& path) {
    command.add_option(
        "--json", path, words("write JSON to a file, or - for standard output alone"));
}

/// What rules need and no drawing says.
void addRules(CLI::App& command, RuleSettings& rules) {
    const auto drop = [&rules]() -> DropChoice& {
        return rules.drop ? *rules.drop : rules.drop.emplace();
    };
    CLI::Option* limit =
        command
            .add_option_function<double>(
                "--drop",
                [drop](double limit_pct) { drop().limit_pct = limit_pct; },
                words("hold the running drop to so many per cent of the nominal voltage"))
            ->check(CLI::Range(0.1, 50.0));
    command
        .add_option_function<std::string>(
            "--because",
            [drop](const std::string& reason) { drop().reason = reason; },
            words("why that limit"))
        ->needs(limit);
}

/// Many starts instead of one.
CLI::Option* addMany(CLI::App& command, ManyOptions& options) {
    CLI::Option* each = command.add_option(
        "--each", options.each, words("a start for every case of this file, into a table"));
    command
        .add_option("-o,--output",
                    options.output,
                    words("the table: .csv or .jsonl; goes on where it was interrupted"))
        ->needs(each);
    command.add_flag("--draft", options.draft, words("the table within 20 mV, faster"))
        ->needs(each);
    return each;
}

void addStart(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<StartOptions>();
    auto many_options = std::make_shared<ManyOptions>();
    CLI::App& command = *app.add_subcommand("start", words("simulate one start and judge it"));
    addScene(command, options->scene);
    addJson(command, options->json);
    command
        .add_option("--expect", options->expect, words("exit with 1 unless this is the outcome"))
        ->check(CLI::IsMember(outcomeNames()));
    addRules(command, options->rules);
    command.add_option("--waveform",
                       options->waveform,
                       words("write voltage, current and speed over time as CSV"));
    CLI::Option* each = addMany(command, *many_options);
    for (const char* one : {"--json", "--expect", "--drop", "--waveform"})
        each->excludes(command.get_option(one));
    command.callback([options, many_options, each, &chosen] {
        many_options->scene = options->scene;
        chosen = each->count() > 0 ? Chosen([many_options] { return many(*many_options); })
                                   : Chosen([options] { return start(*options); });
    });
}

void addHours(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<HoursOptions>();
    CLI::App& command = *app.add_subcommand(
        "hours", words("follow a day of cycling: ampere-hours, running share, how long it lasts"));
    addScene(command, options->scene);
    addJson(command, options->json);
    command.add_option(
        "--csv", options->csv, words("write the day's voltages and currents over time as CSV"));
    command.callback([options, &chosen] { chosen = [options] { return hours(*options); }; });
}

void addReport(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<ReportOptions>();
    CLI::App& command = *app.add_subcommand(
        "report",
        words("write one start as a page that plays it, in one HTML file, also for paper"));
    addScene(command, options->scene);
    addRules(command, options->rules);
    command.add_option("--date", options->date, words("date to print; without it none is printed"));
    command.add_option("-o,--output", options->output, words("file, or - for standard output"))
        ->required();
    command.callback([options, &chosen] { chosen = [options] { return writeReport(*options); }; });
}

void addHandout(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<HandoutOptions>();
    CLI::App& command = *app.add_subcommand(
        "handout", words("write one sheet of paper for a class, with boxes to fill in"));
    addScene(command, options->scene);
    addRules(command, options->rules);
    command.add_flag(
        "--answers", options->answers, words("the same sheet filled in, for the trainer"));
    command.add_option("--paper", options->paper, words("a4 or letter"))
        ->check(CLI::IsMember({"a4", "letter"}))
        ->capture_default_str();
    command.add_option("-o,--output", options->output, words("file, or - for standard output"))
        ->required();
    command.callback([options, &chosen] { chosen = [options] { return handout(*options); }; });
}

void addDeck(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<DeckOptions>();
    CLI::App& command =
        *app.add_subcommand("deck", words("write the circuit exactly as it is run"));
    addScene(command, options->scene);
    CLI::Option* attempt =
        command
            .add_option("--attempt",
                        options->attempts,
                        words("end the run after this attempt (as run: 3; held off: 1)"))
            ->check(CLI::Range(1, 20));
    command.add_flag(
        "--held-off", options->held_off, words("the low-voltage cut-out does not act"));
    command.add_flag(
        "--full", options->full, words("every conductor and joint apart, nothing merged"));
    command.add_option("-o,--output", options->output, words("file, or - for standard output"));
    command.callback([options, attempt, &chosen] {
        if (options->held_off && attempt->count() == 0)
            options->attempts = 1;
        chosen = [options] { return deck(*options); };
    });
}

void addCheck(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<CheckOptions>();
    CLI::App& command =
        *app.add_subcommand("check", words("say how it is wired, without simulating"));
    addScene(command, options->scene);
    addJson(command, options->json);
    command.callback([options, &chosen] { chosen = [options] { return check(*options); }; });
}

void addParts(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<PartsOptions>();
    CLI::App& command = *app.add_subcommand("parts", words("list what can be drawn"));
    command.add_option("--models",
                       options->models,
                       words("folder of device models and catalogues to use instead"));
    command.add_flag(
        "--terminals", options->terminals, words("the terminals of every kind of part"));
    command.add_flag("--keys", options->keys, words("every key: range, unit, class, meaning"));
    addJson(command, options->json);
    command.callback([options, &chosen] { chosen = [options] { return parts(*options); }; });
}

void addUnit(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<UnitOptions>();
    UnitFigures& figures = options->figures;
    CLI::App& command =
        *app.add_subcommand("unit", words("make a controller from five numbers one can get"));
    command.add_option("--nominal", figures.nominal_v, words("nominal voltage, 12 or 24"))
        ->required();
    command.add_option("--cut-out", figures.cut_out_v, words("voltage at which it gives up"))
        ->required();
    command.add_option("--cut-in", figures.cut_in_v, words("voltage from which it runs again"))
        ->required();
    command
        .add_option(
            "--start-a", figures.start_a, words("highest current of a start, from the supply"))
        ->required();
    command
        .add_option("--running-a",
                    figures.running_a,
                    words("current after some minutes of running, from the supply"))
        ->required();
    command.add_option("--running-at-v",
                       figures.running_at_v,
                       words("voltage at which that was measured; without it the nominal one"));
    command.add_option("--id", options->id, words("name of the entry"))->capture_default_str();
    command.add_option("--models",
                       options->models,
                       words("folder of device models and catalogues to use instead"));
    command.add_option("-o,--output",
                       options->output,
                       words("catalogue to write, or - for standard output alone"));
    command.callback([options, &chosen] { chosen = [options] { return unit(*options); }; });
}

void addPicture(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<PictureOptions>();
    CLI::App& command = *app.add_subcommand(
        "picture", words("draw one moment of a start as PNG or SVG, for paper or wall"));
    addScene(command, options->scene);
    command.add_option(
        "--at", options->at_s, words("scene time in s; without it the lowest moment"));
    command.add_option("--size", options->size, words("width and height in pixels"))
        ->capture_default_str();
    std::vector<CLI::Option*> kinds{command.add_flag(
        "--room", options->room, words("large and little, to be read across a room"))};
    for (const char* one : {"plan", "gap", "time"}) {
        CLI::Option* kind = command.add_flag_callback(
            std::string("--") + one,
            [options, one] { options->only = one; },
            words("this picture alone instead of the page"));
        for (CLI::Option* other : kinds)
            kind->excludes(other);
        kinds.push_back(kind);
    }
    command.add_option("--paper", options->paper, words("light or dark"))
        ->check(CLI::IsMember({"light", "dark"}))
        ->capture_default_str();
    command
        .add_option("-o,--output",
                    options->output,
                    words("file: .png or .svg; - for PNG on standard output"))
        ->required();
    command.callback([options, &chosen] { chosen = [options] { return picture(*options); }; });
}

/// Of every command, before its name.
void addReader(CLI::App& app, Reader& reader) {
    static const std::map<std::string, Sizes> scales{
        {"drawn", Sizes::Drawn}, {"mm2", Sizes::Mm2}, {"awg", Sizes::Awg}, {"both", Sizes::Both}};
    app.add_option(
           "--language", reader.language, words("of what people read; JSON and files stay English"))
        ->check(CLI::IsMember(languages()))
        ->default_str(words("of the environment"));
    app.add_option_function<std::string>(
           "--sizes",
           [&reader](const std::string& name) { reader.sizes = scales.at(name); },
           words("of conductors: drawn, mm2, awg or both"))
        ->check(CLI::IsMember({"drawn", "mm2", "awg", "both"}));
    app.fallthrough();
}

void addLesson(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<LessonOptions>();
    CLI::App& command = *app.add_subcommand(
        "lesson", words("go through a lesson and say whether what it expects is so"));
    command.add_option("lesson", options->lesson, words("lesson file (TOML)"))->required();
    command.callback([options, &chosen] { chosen = [options] { return lesson(*options); }; });
}

void addWindow(CLI::App& app, Chosen& chosen) {
    auto options = std::make_shared<WindowOptions>();
    CLI::App& command = *app.add_subcommand(
        "window", words("play a start in a window, for a room, and ask what if"));
    command.add_option(
        "scene",
        options->scene,
        words("scene or lesson file (TOML); without it the scene inside the program"));
    command.add_option(
        "--record", options->record, words("write every text shown, with its place, to a file"));
    command.add_flag(
        "--still", options->still, words("nothing glides: play goes from event to event"));
    command.callback([options, &chosen] { chosen = [options] { return window(*options); }; });
}

ExitCode run(int argc, char** argv) {
    Reader reader{.language = languageOfHelp(argc, argv)};
    setReader(reader);
    CLI::App app{"", "ebbline"};
    addHelp(app);
    app.require_subcommand(1);
    addReader(app, reader);
    Chosen chosen;
    for (const auto add : {addStart,
                           addHours,
                           addReport,
                           addHandout,
                           addDeck,
                           addCheck,
                           addParts,
                           addUnit,
                           addPicture,
                           addLesson,
                           addWindow})
        add(app, chosen);
    for (CLI::App* command : app.get_subcommands(nullptr)) {
        command->group(words("Subcommands"));
        command->get_help_ptr()->group(words("Options")); // made before it knows its defaults
    }
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? ExitCode::Ran : ExitCode::BadCommandLine;
    }
    setReader(reader);
    return chosen();
}

ExitCode runGuarded(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const SceneError& error) {
        std::cerr << error.what();
        return ExitCode::BadScene;
    } catch (const EngineError& error) {
        std::cerr << "ebbline: " << error.what() << '\n';
        return ExitCode::EngineFailed;
    } catch (const std::system_error& error) {
        std::cerr << "ebbline: " << describe(error) << '\n';
        return ExitCode::BadCommandLine;
    } catch (const std::exception& error) {
        std::cerr << "ebbline: " << words("internal error: {}", error.what()) << '\n';
        return ExitCode::InternalError;
    }
}

/// The socket's number when this process was started as a worker.
std::optional<int> workerSocket(int argc, char** argv) {
    if (argc != 3 || std::string_view(argv[1]) != engine::worker_argument)
        return std::nullopt;
    const std::string_view text = argv[2];
    int socket = -1;
    const auto result = std::from_chars(text.data(), text.data() + text.size(), socket);
    return result.ec == std::errc{} ? std::optional(socket) : std::nullopt;
}

} // namespace
} // namespace ebbline::cli

int main(int argc, char** argv) {
    // Numbers in files and circuits never follow the locale; text for people is UTF-8.
    std::setlocale(LC_NUMERIC, "C");
    if (const auto socket = ebbline::cli::workerSocket(argc, argv))
        return ebbline::engine::runWorker(*socket);
    return static_cast<int>(ebbline::cli::runGuarded(argc, argv));
}
