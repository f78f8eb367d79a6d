// SPDX-License-Identifier: MIT
// Values, parts and runs as TOML.
#pragma once

#include "ebbline/installation.h"
#include "ebbline/models.h"

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ebbline::file {

/// Keys with their values as tokens, in the order in which they are shown.
using Lines = std::vector<std::pair<std::string, std::string>>;

/// A text in quotes; of several lines where it has several.
[[nodiscard]] std::string quotedText(std::string_view text);
/// The shortest number that is read as the same double.
[[nodiscard]] std::string token(double number);
[[nodiscard]] std::string token(const Value& value);
[[nodiscard]] std::string token(const Position& place);
[[nodiscard]] std::string token(const Terminal& terminal);
/// A kind in quotes, or a table where there is more to say.
[[nodiscard]] std::string token(const Joint& joint);
/// An array, over several lines if it is long.
[[nodiscard]] std::string listed(std::span<const std::string> tokens);
/// One token for each thing.
template <class Things>
[[nodiscard]] std::vector<std::string> tokensOf(const Things& things) {
    std::vector<std::string> tokens;
    tokens.reserve(things.size());
    for (const auto& thing : things)
        tokens.push_back(token(thing));
    return tokens;
}

/// The key under which a run states its sizes, and a size there.
[[nodiscard]] std::string_view keyOf(SizeScale scale);
[[nodiscard]] std::string token(const Size& size);

/// Throws SceneError for a run whose cores state their sizes in different ways: no file can.
[[nodiscard]] Lines linesOf(const Run& run);
[[nodiscard]] Lines linesOf(const Part& part, const Catalogues& catalogues);
/// "[[part]]", then a line for each key.
[[nodiscard]] std::string blockOf(const std::string& header, const Lines& lines);
/// "{ id = "house", kind = "battery" }"
[[nodiscard]] std::string inlineOf(const Lines& lines);

} // namespace ebbline::file
