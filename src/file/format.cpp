// SPDX-License-Identifier: MIT
// The first lines of every file: the format's number and the kind of file.
#include "format.h"

#include "parse.h"

#include "ebbline/file.h"
#include "ebbline/words.h"

#include <algorithm>
#include <tuple>

namespace ebbline::file {
namespace {

constexpr std::int64_t format_number = 1;

/// Whether any key or block stands before the format's number.
bool isFirst(const toml::table& table, const toml::source_position& number) {
    return std::ranges::none_of(table, [&](const auto& entry) {
        const toml::source_position& place = entry.first.source().begin;
        return entry.first.str() != "ebbline" &&
               std::tuple(place.line, place.column) < std::tuple(number.line, number.column);
    });
}

bool fitsNumber(const toml::table& table, Problems& problems) {
    const toml::node* node = table.get("ebbline");
    if (node == nullptr || !node->is_integer()) {
        problems.add(1, 1, words("the first key is missing, expected ebbline = 1"));
        return false;
    }
    const auto number = node->value<std::int64_t>().value_or(0);
    if (number > format_number)
        problems.add(node->source(), words("written for a later ebbline, this one reads format 1"));
    else if (number < format_number)
        problems.add(node->source(), words("no format has that number, expected ebbline = 1"));
    else if (!isFirst(table, node->source().begin))
        problems.add(node->source(),
                     words("'ebbline' is not the first key, expected it before all others"));
    else
        return true;
    return false;
}

} // namespace

bool fitsFormat(const toml::table& table, const std::string& what, Problems& problems) {
    if (!fitsNumber(table, problems))
        return false;
    const toml::node* node = table.get("what");
    if (node == nullptr && what == "scene")
        return true;
    if (node == nullptr)
        problems.add(1, 1, words("missing 'what', expected what = \"{}\"", what));
    else if (node->value<std::string>() == what)
        return true;
    else
        problems.add(node->source(), words("another kind of file, expected what = \"{}\"", what));
    return false;
}

Heading headingOf(std::string_view text) {
    Problems problems("", text);
    const auto parsed = parse(text, problems);
    if (!parsed || !parsed->table.contains("ebbline"))
        return {};
    return {.what = parsed->table["what"].value_or(std::string("scene")),
            .title = parsed->table["title"].value_or(std::string())};
}

} // namespace ebbline::file
