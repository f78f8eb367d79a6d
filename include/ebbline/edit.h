// SPDX-License-Identifier: MIT
// Documents that are edited as text: the bytes of an edit change, every other byte stays.
#pragma once

#include "ebbline/file.h"
#include "ebbline/installation.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace ebbline {

/// A key taken out, so that it is as the model or the built-in default has it: a path as in Set.
struct Clear {
    std::string path;
    bool operator==(const Clear&) const = default;
};
/// Another id; everything that names the old one names the new one.
struct Rename {
    std::string from;
    std::string to;
    bool operator==(const Rename&) const = default;
};
/// Free text: "title" or "note" of the scene, "<id>.name", "<id>.note". An empty one is taken out.
struct Retext {
    std::string path;
    std::string text;
    bool operator==(const Retext&) const = default;
};
/// Where a part lies on the plan; nothing: it lies nowhere.
struct Move {
    std::string id;
    std::optional<Position> at_m;
    bool operator==(const Move&) const = default;
};
/// Along which places a run lies, or a way; around which a keep-out. A run may have none.
struct Reroute {
    std::string id;
    std::vector<Position> places_m;
    bool operator==(const Reroute&) const = default;
};
/// The part or run of that id as it shall be, of the same kind: run ends, stacks and whatever else
/// no other edit says.
struct Amend {
    std::variant<Part, Run> what;
    bool operator==(const Amend&) const = default;
};
/// What may be done to a document.
using Edit = std::variant<Change, Clear, Rename, Retext, Move, Reroute, Amend>;

namespace file {

/// The document with every edit made, in order. Throws SceneError when one cannot be made or what
/// comes out is no scene. `catalogues` are those the document was read with.
///
/// The same value again changes nothing. Changes that follow one another are checked together, as
/// installation::apply does; everything else only at the end.
[[nodiscard]] Document
edit(const Document& document, std::span<const Edit> edits, const Catalogues& catalogues);
[[nodiscard]] Document
edit(const Document& document, const Edit& edit, const Catalogues& catalogues);

} // namespace file

/// A document with all the texts it has been and may be again. What throws changes nothing.
class History {
public:
    History(Document document, Catalogues catalogues);

    [[nodiscard]] const Document& document() const { return m_document; }

    /// Makes the edits one step, or part of the step before where both carry the same tag, which is
    /// not empty: the many small edits of one drag are undone at once.
    void edit(std::span<const Edit> edits, std::string_view tag = {});
    void edit(const Edit& edit, std::string_view tag = {});
    /// The gesture is over: the next edit is a step of its own whatever its tag.
    void endGesture() { m_tag.clear(); }

    [[nodiscard]] bool canUndo() const { return !m_undone_to.empty(); }
    [[nodiscard]] bool canRedo() const { return !m_redone_to.empty(); }
    /// One step back or forth; nothing happens where there is none.
    void undo();
    void redo();

private:
    void show(std::vector<std::string>& from, std::vector<std::string>& to);

    Document m_document;
    Catalogues m_catalogues;
    std::vector<std::string> m_undone_to; ///< texts, the latest last
    std::vector<std::string> m_redone_to;
    std::string m_tag; ///< of the latest step
};

} // namespace ebbline
