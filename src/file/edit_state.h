// SPDX-License-Identifier: MIT
// A scene on its way from one text to another: what the text says, and what it shall say.
#pragma once

#include "edit_pen.h"

#include "ebbline/edit.h"

#include <string>
#include <string_view>

namespace ebbline::file {

[[noreturn]] void refuse(const std::string& message);

/// A key that is taken out wherever its owner has it; of nobody when empty.
struct Cleared {
    std::string owner;
    std::string key;

    /// Whether this is the owner's key, or the key of one of the group that the owner names.
    [[nodiscard]] bool
    hits(std::string_view name, std::string_view group, std::string_view key_name) const {
        return key_name == key && (name == owner || group == owner);
    }
};

/// Edits of what was drawn, text aside. Throw SceneError for what is not there.
[[nodiscard]] Installation
cleared(Installation scene, const Cleared& what, const Catalogues& catalogues);
[[nodiscard]] Installation renamed(Installation scene, const Rename& edit);
[[nodiscard]] Installation retexted(Installation scene, const Retext& edit);
[[nodiscard]] Installation moved(Installation scene, const Move& edit);
[[nodiscard]] Installation rerouted(Installation scene, const Reroute& edit);
[[nodiscard]] Installation amended(Installation scene, const Amend& edit);

/// One thing of the scene: as its text says it, and as it shall.
struct PartFix {
    const Part& was;
    const Part& wanted;
    const Catalogues& catalogues;
    const Cleared& cleared;
};
struct RunFix {
    const Run& was;
    const Run& wanted;
    const Cleared& cleared;
};
void fix(Pen& pen, const Tree& tree, const Node& node, const PartFix& part);
void fix(Pen& pen, const Tree& tree, const Node& node, const RunFix& run);

/// One value for each of several things, as tokens; `otherwise`: what each is without the key.
struct Each {
    std::string_view key;
    std::vector<std::string> was;
    std::vector<std::string> wanted;
    std::string otherwise;
};
void fixEach(Pen& pen, const Tree& tree, const Node& table, const Each& each);
/// A list of texts or places, which is taken out when it is empty.
void fixList(Pen& pen,
             const Tree& tree,
             const Node& table,
             std::string_view key,
             const std::vector<std::string>& was,
             const std::vector<std::string>& wanted);
/// A text that is taken out when it is empty.
void fixText(Pen& pen,
             const Node& table,
             std::string_view key,
             const std::string& was,
             const std::string& wanted);

/// The joints under one key. The cleared key is taken out of those that are at fault.
struct JointsFix {
    std::string key;
    std::vector<Joint> was;
    std::vector<Joint> wanted;
    Joint otherwise;
    std::vector<std::string> names;
    const Cleared& cleared;
};
void fixJoints(Pen& pen, const Tree& tree, const Node& table, const JointsFix& joints);

/// The text in which everything that names one id names another.
[[nodiscard]] std::string renamedText(std::string_view text, const Rename& edit);

/// Another text in the place of the document's.
[[nodiscard]] Document
readAgain(const Document& document, std::string_view text, const Catalogues& catalogues);

} // namespace ebbline::file
