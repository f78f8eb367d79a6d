// SPDX-License-Identifier: MIT
// The program on hostile scenes, and the engine on scenes changed at random.
#include "fuzz/passage.h"
#include "hostile.h"
#include "mutant.h"
#include "runs.h"
#include "scratch.h"

#include "ebbline/file.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <map>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

void write(const std::filesystem::path& path, std::string_view text) {
    std::ofstream(path, std::ios::binary) << text;
}

/// For the shell that starts the program.
std::string asArgument(const std::filesystem::path& path) {
    std::string out = "'";
    for (const char letter : path.string())
        out += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
    return out + "'";
}

/// A scene that is simulated quickly, with a hostile title and hostile names.
std::string smallScene(const std::string& text) {
    const std::string word = hostile::quoted(text);
    return "ebbline = 1\ntitle = " + word + "\nnote = " + word +
           "\n[[part]]\nid = \"house\"\nkind = \"battery\"\nname = " + word +
           "\n[[part]]\nid = \"fridge\"\nkind = \"controller\"\nnote = " + word +
           "\n[[run]]\nid = \"twin\"\nname = " + word +
           "\nfrom = [\"house.plus\", \"house.minus\"]\nto = [\"fridge.plus\", "
           "\"fridge.minus\"]\narea_mm2 = 4\nlength_m = 2\n";
}

/// What became of a job, in one word; keeps the circuit of one that was not solved.
class Tally {
public:
    explicit Tally(std::filesystem::path folder) : m_folder(std::move(folder)) {
        std::filesystem::remove_all(m_folder);
        std::filesystem::create_directories(m_folder);
    }

    void add(const Solution& solution, const Job& job, const std::string& story) {
        static constexpr std::array names{
            "solved", "not solved", "timed out", "crashed", "rejected"};
        const std::string name = names.at(solution.index());
        const int number = ++m_counts[name];
        if (std::holds_alternative<Solved>(solution))
            return;
        std::string reason;
        if (const auto* failed = std::get_if<NotSolved>(&solution))
            reason = failed->reason;
        if (const auto* failed = std::get_if<Crashed>(&solution))
            reason = failed->reason;
        if (const auto* failed = std::get_if<Rejected>(&solution))
            reason = failed->reason;
        const auto deck = m_folder / (name + "-" + std::to_string(number) + ".cir");
        write(deck, job.circuit);
        m_report += name + ": " + reason + "\n  " + story + "\n  " + deck.string() + "\n";
    }

    [[nodiscard]] int count(const std::string& name) const {
        const auto entry = m_counts.find(name);
        return entry == m_counts.end() ? 0 : entry->second;
    }
    [[nodiscard]] const std::string& report() const { return m_report; }

private:
    std::filesystem::path m_folder;
    std::map<std::string, int> m_counts;
    std::string m_report;
};

} // namespace

TEST_CASE("the program shows hostile texts and obeys none", "[hostile]") {
    const Scratch scratch;
    const auto scene = scratch.path() / "s.toml";
    write(scene, smallScene("plain"));
    const std::string plain_deck = runs::program("deck " + asArgument(scene)).text;
    REQUIRE_THAT(plain_deck, Contains(".tran"));
    const std::string plain_text = runs::program("start " + asArgument(scene)).text;
    for (std::size_t i = 0; i < hostile::texts().size(); ++i) {
        INFO("hostile text " << i);
        const std::string& text = hostile::texts()[i];
        write(scene, smallScene(text));
        CHECK((runs::program("deck " + asArgument(scene)).text == plain_deck));
        if (i % 5 != 0)
            continue; // simulating takes longer
        const runs::Output shown = runs::program("start " + asArgument(scene));
        CHECK(shown.status == 0);
        CHECK(hostile::findControl(shown.text).empty());
        // Behind the title, which is one line, all is as for a plain scene.
        const auto behind = [](const std::string& all) { return all.substr(all.find('\n')); };
        CHECK((behind(shown.text) == behind(plain_text)));
        const runs::Output json = runs::program("start --json - " + asArgument(scene));
        CHECK(nlohmann::json::parse(json.text).at("title").get<std::string>() == text);
    }
    CHECK_FALSE(std::filesystem::exists("pwned"));
    CHECK_FALSE(std::filesystem::exists(scratch.path() / "pwned"));
}

TEST_CASE("the program opens a scene whose own name is hostile", "[hostile]") {
    const Scratch scratch;
    for (const char* name : {"a\nb.toml", "\x1b[2J.toml", "\"'`touch pwned`$(x);.toml"}) {
        const auto path = scratch.path() / name;
        write(path, smallScene("plain"));
        CHECK(runs::program("deck " + asArgument(path)).status == 0);
        write(path, "ebbline = 1\nwrong\n");
        const runs::Output refused = runs::program("start " + asArgument(path) + " 2>&1");
        CHECK(refused.status == 3);
        CHECK_THAT(refused.text, Contains(".toml:2:"));
        CHECK(hostile::findControl(refused.text).empty());
        const runs::Output missing =
            runs::program("start " + asArgument(path.string() + ".none") + " 2>&1");
        CHECK(missing.status == 2);
        CHECK(hostile::findControl(missing.text).empty());
    }
}

TEST_CASE("scenes changed at random are solved, or it is said why not", "[hostile]") {
    constexpr std::size_t count = 160;
    mutants::Breeder breeder(mutants::sceneTexts(), 7);
    std::vector<Netlist> netlists;
    std::vector<std::string> stories;
    while (netlists.size() < count) {
        const mutants::Mutant mutant = breeder.breed();
        if (!fuzz::pass(mutant.text).was_read)
            continue;
        const Document document = file::readText(mutant.text,
                                                 "mutant.toml",
                                                 file::embeddedModels().catalogues,
                                                 mutants::completeFolder());
        netlists.push_back(netlist::build(
            network::reduce(network::build(document.installation, document.catalogues)),
            file::embeddedModels(),
            {.accuracy = Accuracy::Draft, .attempts = 1}));
        stories.push_back(mutant.story);
    }
    std::vector<Job> jobs;
    for (const Netlist& netlist : netlists)
        jobs.push_back(netlist.job);
    const auto pool =
        engine::makePool({.workers = 2, .deadline_s = 30, .program = EBBLINE_PROGRAM});
    const std::vector<Solution> solutions = pool->run(jobs);
    REQUIRE(solutions.size() == count);
    Tally tally(std::filesystem::current_path() / "mutants-not-solved");
    for (std::size_t i = 0; i < count; ++i) {
        tally.add(solutions[i], jobs[i], stories[i]);
        // What was solved can be told, whatever happened.
        if (const auto* solved = std::get_if<Solved>(&solutions[i]))
            CHECK(std::isfinite(start::read(*solved, netlists[i]).horizon_s));
    }
    WARN("of " << count << " solved: " << tally.count("solved") << "\n" << tally.report());
    CHECK(tally.count("crashed") == 0);
    CHECK(tally.count("rejected") == 0);
    CHECK(tally.count("solved") >= static_cast<int>(count) * 9 / 10);
}
