// SPDX-License-Identifier: MIT
// A row for each of many starts, for spreadsheets and programs.
#include "objects.h"

#include "ebbline/many_telling.h"
#include "ebbline/text.h"

namespace ebbline::report {
namespace {

/// A figure of a row under its name.
struct Figure {
    const char* name;
    std::optional<double> value;
};

std::vector<Figure> figuresOf(const Row& row) {
    return {{"lowest_v", row.lowest_v},
            {"lowest_at_s", row.lowest_at_s},
            {"sensed_lowest_v", row.sensed_lowest_v},
            {"held_off_lowest_v", row.verdict.held_off_lowest_v},
            {"headroom_v", row.verdict.headroom_v},
            {"inrush_a", row.inrush_a},
            {"peak_a", row.peak_a},
            {"running_a", row.running_a},
            {"running_v", row.running_v},
            {"loop_ohms", row.loop_ohm}};
}

/// A field as RFC 4180 has it, in one line.
std::string field(const std::string& raw) {
    std::string quoted = text::escapeControls(raw);
    if (quoted.find_first_of(",\"") == std::string::npos)
        return quoted;
    text::replaceAll(quoted, "\"", "\"\"");
    return '"' + quoted + '"';
}

std::string plain(const Value& value) {
    if (const auto* number = std::get_if<double>(&value))
        return text::number(*number);
    if (const auto* flag = std::get_if<bool>(&value))
        return *flag ? "true" : "false";
    return std::get<std::string>(value);
}

Json toJson(const Value& value) {
    return std::visit([](const auto& held) { return Json(held); }, value);
}

bool isSolved(const Row& row) {
    return row.error.empty();
}

} // namespace

std::string writeCsvHead(const Cases& cases) {
    std::string head = "case,name";
    for (const Variation& variation : cases.variations)
        head += ',' + field(variation.path);
    head += ",outcome,margin";
    for (const Figure& figure : figuresOf({}))
        head += std::string(",") + figure.name;
    return head + ",error\n";
}

std::string writeCsvRow(const Row& row) {
    std::string line = text::number(static_cast<double>(row.what.number));
    line += ',' + field(row.what.name);
    for (const auto& [path, value] : row.what.variation)
        line += ',' + field(plain(value));
    line += ',';
    if (isSolved(row))
        line += nameOf(row.outcome);
    line += ',';
    if (isSolved(row))
        line += nameOf(row.verdict.margin);
    for (const Figure& figure : figuresOf(row)) {
        line += ',';
        if (figure.value)
            line += text::number(*figure.value);
    }
    return line + ',' + field(row.error) + '\n';
}

std::string writeJsonRow(const Row& row) {
    Json set = Json::object();
    for (const auto& [path, value] : row.what.variation)
        set[path] = toJson(value);
    Json object = {{"case", row.what.number},
                   {"name", row.what.name},
                   {"set", set},
                   {"outcome", isSolved(row) ? Json(nameOf(row.outcome)) : Json(nullptr)},
                   {"margin", isSolved(row) ? Json(nameOf(row.verdict.margin)) : Json(nullptr)}};
    for (const Figure& figure : figuresOf(row))
        object[figure.name] = orNull(figure.value);
    object["error"] = row.error.empty() ? Json(nullptr) : Json(row.error);
    return object.dump() + "\n";
}

} // namespace ebbline::report
