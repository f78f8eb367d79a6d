// SPDX-License-Identifier: MIT
// Values as TOML: numbers that read back exactly, texts in quotes, places, joints.
#include "write.h"

#include "ebbline/text.h"

#include <fmt/core.h>

namespace ebbline::file {
namespace {

constexpr std::size_t widest = 96; ///< of an array on one line

std::string escaped(char letter) {
    switch (letter) {
    case '\\':
        return "\\\\";
    case '\t':
        return "\\t";
    case '\r':
        return "\\r";
    default:
        return fmt::format("\\u{:04X}", static_cast<unsigned char>(letter));
    }
}

bool isControl(char letter) {
    const auto code = static_cast<unsigned char>(letter);
    return code < 0x20 || code == 0x7F;
}

/// Between three quotes: only a quote behind another is escaped. One at the end may stand there.
std::string quotedLines(std::string_view text) {
    std::string out = "\"\"\"\n";
    for (std::size_t i = 0; i < text.size(); ++i)
        if (text[i] == '"' && out.back() == '"')
            out += "\\\"";
        else if (text[i] == '\n' || text[i] == '\t' || (!isControl(text[i]) && text[i] != '\\'))
            out += text[i];
        else
            out += escaped(text[i]);
    return out + "\"\"\"";
}

} // namespace

std::string quotedText(std::string_view text) {
    if (text.find('\n') != std::string_view::npos)
        return quotedLines(text);
    std::string out = "\"";
    for (const char letter : text)
        if (letter == '"')
            out += "\\\"";
        else if (letter == '\\' || isControl(letter))
            out += escaped(letter);
        else
            out += letter;
    return out + "\"";
}

std::string token(double number) {
    constexpr std::size_t most_digits = 18; // of what is sure to be read as a whole number
    std::string digits = text::number(number);
    const bool is_whole = digits.find_first_not_of("-0123456789") == std::string::npos;
    return is_whole && digits.size() > most_digits ? digits + ".0" : digits;
}

std::string token(const Value& value) {
    if (const auto* number = std::get_if<double>(&value))
        return token(*number);
    if (const auto* flag = std::get_if<bool>(&value))
        return *flag ? "true" : "false";
    return quotedText(std::get<std::string>(value));
}

std::string token(const Position& place) {
    return "[" + token(place.x_m) + ", " + token(place.y_m) + "]";
}

std::string token(const Terminal& terminal) {
    return quotedText(terminal.text());
}

std::string token(const Joint& joint) {
    Lines lines{{"kind", quotedText(joint.kind)}};
    if (joint.condition != Joint{}.condition)
        lines.emplace_back("condition", quotedText(joint.condition));
    for (const installation::JointNumber& number : installation::jointNumbers())
        if (const auto value = number.of(joint); value && value != number.of(Joint{}))
            lines.emplace_back(number.name, token(*value));
    if (!joint.connected)
        lines.emplace_back("connected", "false");
    return lines.size() == 1 ? lines.front().second : inlineOf(lines);
}

std::string token(const Size& size) {
    if (size.scale == SizeScale::Mm2 || size.value > 0)
        return token(size.value);
    return quotedText(token(1 - size.value) + "/0");
}

std::string_view keyOf(SizeScale scale) {
    return scale == SizeScale::Awg ? "awg" : scale == SizeScale::Sae ? "sae" : "area_mm2";
}

std::string listed(std::span<const std::string> tokens) {
    std::string out = "[";
    std::size_t line_begin = 0;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (i > 0)
            out += ",";
        if (i > 0 && out.size() - line_begin + tokens[i].size() > widest) {
            line_begin = out.size() + 1;
            out += "\n    ";
        } else if (i > 0)
            out += " ";
        out += tokens[i];
    }
    return out + "]";
}

std::string blockOf(const std::string& header, const Lines& lines) {
    std::string out = header + "\n";
    for (const auto& [key, value] : lines)
        out.append(key).append(" = ").append(value).append("\n");
    return out;
}

std::string inlineOf(const Lines& lines) {
    std::string out = "{ ";
    for (const auto& [key, value] : lines)
        out.append(out.size() == 2 ? "" : ", ").append(key).append(" = ").append(value);
    return out + " }";
}

} // namespace ebbline::file
