// SPDX-License-Identifier: MIT
// A thousand edits of every scene and of nasty ones: what was meant, and no byte more.
#include "drawn.h"
#include "nasty.h"
#include "random_changes.h"
#include "runs.h"

#include "ebbline/edit.h"
#include "ebbline/error.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <optional>

using namespace ebbline;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

std::map<std::string, std::string> texts() {
    std::map<std::string, std::string> all{
        {"blocks", std::string(nasty::blocks)},
        {"blocks with returns", nasty::withReturns(nasty::blocks)},
        {"arrays", std::string(nasty::arrays)},
        {"arrays with returns", nasty::withReturns(nasty::arrays)}};
    for (const std::string& name : drawn::sceneNames())
        all[name] = file::readBytes(std::filesystem::path(EBBLINE_SOURCE_DIR) / "scenes" / name);
    return all;
}

Document documentOf(const std::string& text) {
    return file::readText(text, "scene", catalogues());
}

/// What the change makes of the scene, if that is a scene: found without any edit of a text.
std::optional<Installation> wantedOf(const Installation& scene, const Change& change) {
    try {
        Installation wanted = installation::apply(scene, std::vector<Change>{change});
        const std::string text = file::write(wanted);
        if (file::readText(text, "written", catalogues()).installation == wanted)
            return wanted;
    } catch (const SceneError&) {
        return std::nullopt;
    }
    return std::nullopt;
}

std::optional<Document> edited(const Document& document, const Edit& edit) {
    try {
        return file::edit(document, edit, catalogues());
    } catch (const SceneError&) {
        return std::nullopt;
    }
}

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t at = 0;
    while (at <= text.size()) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        if (lines.back().ends_with('\r'))
            lines.back().pop_back();
        at = end + 1;
    }
    return lines;
}

/// Lines that the one text has and the other has not.
std::vector<std::string> gone(std::vector<std::string> lines, std::vector<std::string> others) {
    std::ranges::sort(lines);
    std::ranges::sort(others);
    std::vector<std::string> rest;
    std::ranges::set_difference(lines, others, std::back_inserter(rest));
    return rest;
}

/// How many lines from the first that differs to the last, before and after.
std::pair<std::size_t, std::size_t> changedRange(const std::vector<std::string>& before,
                                                 const std::vector<std::string>& after) {
    const std::size_t most = std::min(before.size(), after.size());
    std::size_t head = 0;
    while (head < most && before[head] == after[head])
        ++head;
    std::size_t tail = 0;
    while (tail < most - head && before[before.size() - 1 - tail] == after[after.size() - 1 - tail])
        ++tail;
    return {before.size() - head - tail, after.size() - head - tail};
}

bool isOfGroup(const std::string& path) {
    return path.starts_with("joints.") || path.starts_with("runs.") ||
           path.starts_with("batteries.");
}

/// Lines that an edit may take away, and how far apart they may lie.
struct Allowed {
    std::size_t gone = 0;
    std::size_t come = 0;
    std::size_t range = 0; ///< in the text before
};

/// `most`: lines that one key may need, more than one where a joint has a block of its own.
Allowed allowedFor(const Installation& before, const Change& change, std::size_t most) {
    constexpr std::size_t any = 1000;
    if (const auto* set = std::get_if<Set>(&change)) {
        if (isOfGroup(set->path))
            return {most * 2 * (before.runs.size() * 3 + before.parts.size()), any, any};
        if (set->path.starts_with("surroundings."))
            return {1, 3, 1};             // a block of its own where there was none
        if (set->path.ends_with(".ways")) // and two lists with an element for each
            return {most + 2, most + 3, most + 10};
        return {most, most + 1, most};
    }
    if (std::holds_alternative<Open>(change))
        return {most, most + 1, most};
    if (std::holds_alternative<Remove>(change))
        return {most + 40, 1, most + 60};
    return {1, 40, any}; // a comma, a block; `subject` far above
}

void checkLineEnds(const std::string& before, const std::string& after) {
    const bool has_returns = before.find("\r\n") != std::string::npos;
    for (std::size_t at = after.find('\n'); at != std::string::npos; at = after.find('\n', at + 1))
        if ((at > 0 && after[at - 1] == '\r') != has_returns)
            FAIL("a line ends otherwise than the others");
}

void checkBytes(const Document& before,
                const Document& after,
                const Change& change,
                std::size_t most) {
    const auto lines = linesOf(before.text);
    const auto new_lines = linesOf(after.text);
    const Allowed allowed = allowedFor(before.installation, change, most);
    INFO(after.text);
    REQUIRE(gone(lines, new_lines).size() <= allowed.gone);
    REQUIRE(gone(new_lines, lines).size() <= allowed.come);
    REQUIRE(changedRange(lines, new_lines).first <= allowed.range);
    checkLineEnds(before.text, after.text);
}

/// For messages: the change as an edit's path.
std::string nameOf(const Change& change) {
    if (const auto* set = std::get_if<Set>(&change))
        return "set " + set->path;
    if (const auto* open = std::get_if<Open>(&change))
        return "open " + open->joint;
    if (const auto* remove = std::get_if<Remove>(&change))
        return "remove " + remove->id;
    return std::holds_alternative<Bridge>(change) ? "bridge" : "place";
}

} // namespace

TEST_CASE("a thousand edits of a text say what the changes say, and touch no other line",
          "[edit]") {
    const std::size_t many = runs::isSanitised() ? 200 : 1000;
    for (const auto& [name, text] : texts()) {
        const Document start = documentOf(text);
        const std::size_t most = name.ends_with(".toml") ? 1 : 7;
        RandomChanges random(20240601);
        Document document = start;
        std::size_t made = 0;
        for (std::size_t i = 0; i < many; ++i) {
            if (i % 40 == 0)
                document = start;
            const Change change = random.next(document.installation);
            INFO(name << ", edit " << i << ": " << nameOf(change) << "\n" << document.text);
            const auto wanted = wantedOf(document.installation, change);
            const std::string before = document.text;
            const auto after = edited(document, change);
            REQUIRE(document.text == before);
            REQUIRE(after.has_value() == wanted.has_value());
            if (!after)
                continue;
            REQUIRE((after->installation == *wanted));
            REQUIRE((documentOf(after->text).installation == *wanted));
            checkBytes(document, *after, change, most);
            document = *after;
            ++made;
        }
        INFO(name);
        CHECK(10 * made > 7 * many); // else the test has little to say
    }
}

TEST_CASE("what is set and then cleared is as it was", "[edit]") {
    for (const auto& [name, text] : texts()) {
        const Document start = documentOf(text);
        RandomChanges random(31);
        std::size_t made = 0;
        for (int i = 0; i < 300; ++i) {
            const Set change = random.set(start.installation);
            INFO(name << ", " << change.path);
            if (change.path.ends_with(".condition") || change.path.ends_with(".ways"))
                continue; // takes a stated resistance, or switches, with it
            const auto unsaid = edited(start, Clear{change.path});
            const auto after = edited(start, Change(change));
            if (!unsaid || unsaid->text != text || !after || after->text == text)
                continue;
            INFO(after->text);
            const auto cleared = edited(*after, Clear{change.path});
            REQUIRE(cleared.has_value());
            REQUIRE((cleared->installation == start.installation));
            checkLineEnds(text, cleared->text);
            ++made;
        }
        INFO(name);
        CHECK(made > 60);
    }
}

TEST_CASE("fifty steps are undone to the first byte", "[edit]") {
    for (const auto& [name, text] : texts()) {
        INFO(name);
        History history(documentOf(text), catalogues());
        RandomChanges random(5);
        for (int i = 0; i < 50; ++i)
            try {
                history.edit(Change(random.next(history.document().installation)));
            } catch (const SceneError&) {
                continue;
            }
        const std::string last = history.document().text;
        CHECK(last != text);
        while (history.canUndo())
            history.undo();
        CHECK(history.document().text == text);
        while (history.canRedo())
            history.redo();
        CHECK(history.document().text == last);
    }
}
