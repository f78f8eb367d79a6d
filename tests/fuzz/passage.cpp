// SPDX-License-Identifier: MIT
// One text through reader, graph and circuit.
#include "passage.h"

#include "engine/accept.h"

#include "ebbline/error.h"
#include "ebbline/file.h"
#include "ebbline/netlist.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <regex>

namespace ebbline::fuzz {
namespace {

/// What was promised of an error and does not hold.
std::string findUnplaced(const SceneError& error) {
    const auto& problems = error.problems();
    if (problems.empty())
        return "refused without a problem";
    for (std::size_t i = 0; i < problems.size(); ++i) {
        const Problem& problem = problems[i];
        // Only the line that counts what was left out has no place.
        const bool is_count =
            i > 0 && i + 1 == problems.size() && problem.message.starts_with("and ");
        if (!is_count && (problem.line < 1 || problem.column < 1 || problem.message.empty()))
            return fmt::format("a problem without a place: {}", error.what());
    }
    return "";
}

/// The first number of a circuit's own lines that is none.
std::string findStrange(const std::string& circuit) {
    static const std::regex strange(R"([= (](-?(nan|inf)\b[^\n]*))");
    const std::string own = circuit.substr(0, circuit.find(".subckt"));
    if (own.find("nan") == std::string::npos && own.find("inf") == std::string::npos)
        return ""; // the search by form is slow
    std::smatch found;
    return std::regex_search(own, found, strange) ? found[1].str() : "";
}

std::string findStrange(const Network& network) {
    for (const Element& element : network.elements) {
        const bool is_finite = std::isfinite(element.ohm) && std::isfinite(element.henry);
        if (!is_finite || element.ohm < 0 || element.henry < 0)
            return fmt::format("{} has {} ohm, {} H", element.name, element.ohm, element.henry);
    }
    return "";
}

std::string addCircuit(const Installation& drawn, const Catalogues& catalogues, Passage& passage) {
    const Network network = network::reduce(network::build(drawn, catalogues));
    if (const std::string strange = findStrange(network); !strange.empty())
        return strange;
    const Netlist netlist = netlist::build(
        network, file::embeddedModels(), {.accuracy = Accuracy::Draft, .attempts = 1});
    if (!std::isfinite(netlist.job.stop_s) || netlist.job.stop_s <= 0)
        return fmt::format("would run to {} s", netlist.job.stop_s);
    if (const std::string strange = findStrange(netlist.job.circuit); !strange.empty())
        return "in the circuit: " + strange;
    passage.circuits.push_back(netlist.job.circuit);
    return engine::whyRefused(netlist.job.circuit);
}

std::string addCircuits(const Document& document, Passage& passage) {
    const Installation& drawn = document.installation;
    std::vector<std::vector<Change>> all{{}, installation::faultChanges(drawn)};
    for (const auto* sets : {&drawn.conditions, &drawn.variants, &drawn.setups})
        for (const ChangeSet& set : *sets)
            all.push_back(set.changes);
    for (const std::vector<Change>& changes : all)
        try {
            const Installation changed = installation::apply(drawn, changes);
            if (std::string broken = addCircuit(changed, document.catalogues, passage);
                !broken.empty())
                return broken;
        } catch (const SceneError& error) {
            return fmt::format("was read, then refused: {}", error.what());
        }
    return "";
}

} // namespace

Passage pass(std::string_view text) {
    Passage passage;
    try {
        const Document document = file::readText(text,
                                                 "scene.toml",
                                                 file::embeddedModels().catalogues,
                                                 EBBLINE_SOURCE_DIR "/tests/data/complete");
        passage.was_read = true;
        passage.broken = addCircuits(document, passage);
    } catch (const SceneError& error) {
        passage.broken = findUnplaced(error);
    }
    return passage;
}

} // namespace ebbline::fuzz
