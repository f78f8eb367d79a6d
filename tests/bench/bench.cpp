// SPDX-License-Identifier: MIT
// How fast, beside a reference measured in the same run. Prints the rows of tests/bench/README.md.
#include "rows.h"
#include "runs.h"
#include "scratch.h"
#include "trunk.h"
#include "window.h"

#include "ebbline/file.h"
#include "ebbline/live.h"
#include "ebbline/many.h"
#include "ebbline/text.h"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <iostream>
#include <iterator>
#include <set>
#include <sstream>
#include <thread>
#include <utility>
#include <vector>

using namespace ebbline;
using namespace ebbline::bench;

namespace {

void shell(const std::string& command) {
    if (std::system(command.c_str()) != 0) {
        std::cerr << "failed: " << command << '\n';
        std::exit(1);
    }
}

Installation sixtyParts() {
    return file::readText(sceneOf(60), "sixty", file::embeddedModels().catalogues).installation;
}

void withLength(Installation& installation, double length_m) {
    installation.runs.back().length_m = length_m;
}

std::string stock(const std::filesystem::path& folder, const std::string& name) {
    return "ngspice -n -b -r " + (folder / (name + ".raw")).string() + " " +
           (folder / "full.cir").string() + " > /dev/null 2>&1";
}

/// Whole commands beside stock ngspice on the unreduced circuit of their first run.
void benchStart(const std::filesystem::path& folder) {
    const std::string scene = EBBLINE_SOURCE_DIR "/scenes/quay-02.toml";
    const std::string program = EBBLINE_PROGRAM;
    shell(program + " deck --full " + scene + " -o " + (folder / "full.cir").string());
    std::vector<double> starts;
    std::vector<double> pictures;
    std::vector<double> theirs;
    std::vector<double> pairs;
    for (int i = 0; i < 9; ++i) {
        starts.push_back(timed([&] { shell(program + " start " + scene + " > /dev/null"); }));
        pictures.push_back(timed([&] {
            shell(program + " picture " + scene + " -o " + (folder / "page.svg").string());
        }));
        theirs.push_back(timed([&] { shell(stock(folder, "one")); }));
        pairs.push_back(timed(
            [&] { shell(stock(folder, "one") + " & " + stock(folder, "other") + "; wait"); }));
    }
    const std::string reference =
        "`ngspice -b` on its unreduced circuit, one run: " + milliseconds(median(theirs));
    row("`ebbline start scenes/quay-02.toml`, everything it says",
        "no slower than the reference",
        milliseconds(median(starts)),
        reference);
    row("`ebbline picture scenes/quay-02.toml`, as it starts and held off",
        "-",
        milliseconds(median(pictures)),
        reference);
    row("two stock `ngspice -b` side by side, over one after the other",
        "-",
        text::fixed(2 * median(theirs) / median(pairs), 2) + " times",
        "what the second core of this machine is worth");
}

void benchHelp() {
    std::vector<double> times;
    for (int i = 0; i < 21; ++i)
        times.push_back(timed([] { shell(EBBLINE_PROGRAM " --help > /dev/null"); }));
    std::vector<double> nothing;
    for (int i = 0; i < 21; ++i)
        nothing.push_back(timed([] { shell("true"); }));
    row("`ebbline --help`",
        "20 ms",
        milliseconds(median(times)),
        "a shell that does nothing: " + milliseconds(median(nothing)));
}

/// From an edit to its draft.
void benchDraft() {
    const auto pool = runs::makePool(2);
    Installation installation = sixtyParts();
    static_cast<void>(study::runDraft(*pool, installation, file::embeddedModels()));
    std::vector<double> drafts;
    std::vector<double> finals;
    for (int i = 0; i < 101; ++i) {
        withLength(installation, 1 + 0.05 * i);
        drafts.push_back(timed([&] {
            static_cast<void>(study::runDraft(*pool, installation, file::embeddedModels()));
        }));
    }
    for (int i = 0; i < 11; ++i) {
        withLength(installation, 1 + 0.5 * i);
        finals.push_back(timed([&] {
            static_cast<void>(study::runStartAlone(
                *pool, installation, file::embeddedModels(), [](const std::string&) {}));
        }));
    }
    row("draft of 60 parts, edit to result",
        "30 ms, 95th centile 60 ms",
        milliseconds(median(drafts)) + ", 95th centile " + milliseconds(centile(drafts, 0.95)),
        "the same at final accuracy: " + milliseconds(median(finals)));
}

Cases varied(std::size_t many) {
    Variation lengths{.path = "twin.length_m", .values = {}};
    Variation charges{.path = "house.charge_pct", .values = {}};
    constexpr std::size_t each = 25;
    for (std::size_t i = 0; i < each; ++i)
        charges.values.emplace_back(30 + 2.8 * static_cast<double>(i));
    for (std::size_t i = 0; i < many / each; ++i)
        lengths.values.emplace_back(1 + 10.0 * static_cast<double>(i * each) /
                                            static_cast<double>(many));
    return {.listed = {}, .variations = {lengths, charges}};
}

Cases everyOf(const Cases& cases, std::size_t step) {
    Cases some;
    for (std::size_t i = 0; i < cases.size(); i += step)
        some.listed.push_back({.name = "", .changes = cases.at(i).changes});
    return some;
}

/// Seconds for all rows of the cases.
double runAll(int workers, const Cases& cases, Accuracy accuracy) {
    const auto pool = runs::makePool(workers);
    const Installation scene =
        file::read(EBBLINE_SOURCE_DIR "/scenes/quay-02.toml", file::embeddedModels().catalogues)
            .installation;
    std::size_t rows = 0;
    const double seconds = timed([&] {
        static_cast<void>(study::runMany(*pool,
                                         scene,
                                         file::embeddedModels(),
                                         cases,
                                         {.accuracy = accuracy},
                                         [&](const Row& one) { rows += one.error.empty(); },
                                         {}));
    });
    if (rows != cases.size())
        std::cerr << cases.size() - rows << " cases have no result\n";
    return seconds;
}

/// The same runs by one stock ngspice after the other.
struct StockCases {
    double seconds = 0; ///< all of them
    int measured = 0;
    int given_up = 0;   ///< came to no end in time, which counts as so much time
    double ended_s = 0; ///< the cases of which every run came to its end
    int ended = 0;
};

bool runStock(const std::filesystem::path& folder, const std::string& deck) {
    return std::system(("timeout 20 ngspice -n -b -r " + (folder / "case.raw").string() + " " +
                        deck + " > /dev/null 2>&1")
                           .c_str()) == 0;
}

StockCases byStock(const std::filesystem::path& folder, const Cases& cases, std::size_t step) {
    const Installation scene =
        file::read(EBBLINE_SOURCE_DIR "/scenes/quay-02.toml", file::embeddedModels().catalogues)
            .installation;
    const Models& models = file::embeddedModels();
    const std::string deck = (folder / "case.cir").string();
    StockCases stock;
    for (std::size_t i = 0; i < cases.size(); i += step, ++stock.measured) {
        const StockCases before = stock;
        const Network network =
            network::build(installation::apply(scene, cases.at(i).changes), models.catalogues);
        const auto once = [&](bool held_off) {
            const Netlist netlist =
                netlist::build(network, models, {.held_off = held_off, .attempts = 1});
            std::ofstream(deck, std::ios::binary) << netlist.job.circuit;
            bool is_done = false;
            stock.seconds += timed([&] { is_done = runStock(folder, deck); });
            stock.given_up += is_done ? 0 : 1;
            return netlist;
        };
        const Netlist netlist = once(false);
        const auto pool = runs::makePool(1); // only to know whether a second run is wanted
        const Start start = start::read(
            study::requireSolved(std::move(pool->run({&netlist.job, 1}).front())), netlist);
        if (start.outcome == Outcome::Trips)
            static_cast<void>(once(true));
        if (stock.given_up == before.given_up) {
            stock.ended_s += stock.seconds - before.seconds;
            ++stock.ended;
        }
    }
    return stock;
}

void benchMany(const std::filesystem::path& folder, std::size_t many) {
    const Cases cases = varied(many);
    const Cases fewer = everyOf(cases, 5); // by one worker alone the whole takes too long
    const double two_s = runAll(2, cases, Accuracy::Final);
    const double two_of_fewer_s = runAll(2, fewer, Accuracy::Final);
    const double one_of_fewer_s = runAll(1, fewer, Accuracy::Final);
    const StockCases stock = byStock(folder, cases, std::max<std::size_t>(1, cases.size() / 50));
    const double stock_s = stock.seconds / stock.measured * static_cast<double>(cases.size());
    const double ended_s =
        stock.ended_s / std::max(1, stock.ended) * static_cast<double>(cases.size());
    const double draft_s = runAll(2, cases, Accuracy::Draft);
    const auto rate = [&](double seconds) {
        return text::fixed(static_cast<double>(cases.size()) / seconds, 1) + " a second";
    };
    row(std::to_string(cases.size()) + " varied starts, two workers",
        "4 times the reference",
        rate(two_s) + ": " + text::fixed(stock_s / two_s, 2) + " times; " +
            text::fixed(ended_s / two_s, 2) + " times those that ended",
        "one `ngspice -b` after another, unreduced circuits (every " +
            std::to_string(std::max<std::size_t>(1, cases.size() / 50)) + "th case measured; " +
            std::to_string(stock.given_up) + " runs stopped after 20 s): " + rate(stock_s));
    row("two workers over one",
        "1.8 times",
        text::fixed(one_of_fewer_s / two_of_fewer_s, 2) + " times",
        "one worker, both on every fifth case: " +
            text::fixed(static_cast<double>(fewer.size()) / one_of_fewer_s, 1) + " a second");
    row("the same as drafts", "-", rate(draft_s), "final: " + rate(two_s));
}

long workerKilobytes() {
    long most = 0;
    for (const int worker : runs::childrenOf(getpid())) {
        std::ifstream status("/proc/" + std::to_string(worker) + "/status");
        for (std::string line; std::getline(status, line);)
            if (line.starts_with("VmHWM:"))
                most = std::max(most, std::atol(line.c_str() + 6));
    }
    return most;
}

/// Peak of any worker over many drafts, recycled as they are, beside a worker's after its first.
void benchMemory(std::size_t many) {
    const auto pool = runs::makePool(2);
    const Installation scene = sixtyParts();
    const Models& models = file::embeddedModels();
    const Netlist netlist =
        netlist::build(network::reduce(network::build(scene, models.catalogues)),
                       models,
                       {.accuracy = Accuracy::Draft, .attempts = 1});
    long fresh = 0;
    long peak = 0;
    std::size_t given = 0;
    std::size_t taken = 0;
    static_cast<void>(pool->stream(
        [&]() -> std::optional<Job> {
            return given++ < many ? std::optional(netlist.job) : std::nullopt;
        },
        [&](const Solution&) {
            if (++taken == 2)
                fresh = workerKilobytes();
            if (taken % 50 == 0)
                peak = std::max(peak, workerKilobytes());
        },
        {}));
    row("peak memory of a worker over " + std::to_string(many) + " drafts",
        "25 MB above a fresh one",
        text::fixed(static_cast<double>(peak - fresh) / 1024, 1) + " MB above",
        "a worker after its first job: " + text::fixed(static_cast<double>(fresh) / 1024, 1) +
            " MB");
}

/// So many trunks beside each other, all but the first without battery and fridge.
Installation repeated(const Installation& one, int times) {
    Installation all = one;
    const std::set<std::string> single{"house", "main-fuse", "fridge"};
    for (int k = 1; k < times; ++k) {
        const std::string mark = "-" + std::to_string(k);
        for (Part part : one.parts)
            if (!single.contains(part.id)) {
                part.id += mark;
                all.parts.push_back(std::move(part));
            }
        for (Run run : one.runs) {
            Core& core = run.cores.front();
            if (single.contains(core.from.part) || single.contains(core.to.part))
                continue;
            run.id += mark;
            core.from.part += mark;
            core.to.part += mark;
            all.runs.push_back(std::move(run));
        }
    }
    return all;
}

/// The format takes a thousand parts; what is more is put together in memory.
void benchGrowth() {
    constexpr int most_read = 1000;
    const Models& models = file::embeddedModels();
    std::string before;
    for (const int parts : {10, 100, 1000, 10000}) {
        const std::string text = sceneOf(std::min(parts, most_read));
        Installation installation;
        Network network;
        const double read_s = timed(
            [&] { installation = file::readText(text, "trunk", models.catalogues).installation; });
        if (parts > most_read)
            installation = repeated(installation, parts / most_read);
        const double network_s =
            timed([&] { network = network::build(installation, models.catalogues); });
        const double reduce_s = timed([&] { network = network::reduce(std::move(network)); });
        const double netlist_s =
            timed([&] { static_cast<void>(netlist::build(network, models, {})); });
        const std::string measured = (parts > most_read ? "-" : milliseconds(read_s)) + " / " +
                                     milliseconds(network_s) + " / " + milliseconds(reduce_s) +
                                     " / " + milliseconds(netlist_s);
        row("read / network / reduce / netlist of " + std::to_string(parts) + " parts",
            parts == 1000 ? "1 s in all" : "n log n",
            measured,
            before.empty() ? "-" : "a tenth of the parts: " + before);
        before = measured;
    }
}

} // namespace

int main(int argc, char** argv) {
    std::set<std::string> wanted(argv + 1, argv + argc);
    const bool is_short = wanted.erase("--short") > 0;
    const Scratch scratch;
    const std::vector<std::pair<std::string, std::function<void()>>> benches{
        {"help", benchHelp},
        {"growth", benchGrowth},
        {"start", [&] { benchStart(scratch.path()); }},
        {"window", [&] { benchWindow(scratch.path()); }},
        {"draft", benchDraft},
        {"memory", [&] { benchMemory(is_short ? 1000 : 10000); }},
        {"many", [&] { benchMany(scratch.path(), is_short ? 200 : 10000); }}};
    std::cout << "| what | aim | measured | reference |\n|---|---|---|---|\n";
    for (const auto& [name, bench] : benches)
        if (wanted.empty() || wanted.contains(name))
            bench();
    return 0;
}
