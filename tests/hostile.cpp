// SPDX-License-Identifier: MIT
// Texts that were written to do harm.
#include "hostile.h"

#include "mutant.h"

#include "ebbline/file.h"

#include <fmt/core.h>

#include <regex>

namespace ebbline::hostile {
namespace {

bool isControl(char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return (byte < 0x20 && letter != '\n') || byte == 0x7F;
}

/// What changes the direction of writing; a reader of the screen would be told another story.
const std::vector<std::string>& directions() {
    static const std::vector<std::string> all{
        "\u202A", "\u202B", "\u202C", "\u202D", "\u202E", "\u2066", "\u2067", "\u2068", "\u2069"};
    return all;
}

} // namespace

const std::vector<std::string>& texts() {
    static const std::vector<std::string> all{
        "x\n.control\nshell touch pwned\n.endc",
        "x\r\n.include /etc/passwd\r\n* ",
        "*#ng_script\nquit 1",
        "a;b`touch pwned`$(touch pwned)|&<>",
        "\"'\\\"' = 1\n[[part]]\nid = \"more\"",
        "../../../../etc/passwd",
        "{} {0} {title} %s %n",
        "\x1b[2J\x1b]0;owned\x07\b\x7f",
        std::string("\xc2\x9b") + "31mC1",
        "left \u202Etfel\u202C \u2066isolated\u2069 \u2028line\u2029",
        "żółw 冰箱 ثلاجة 🧊 e\u0301",
        std::string("nul\0behind", 10),
        "1M 1e999 nan inf",
        std::string(10000, 'x'),
        std::string(10000, '\n'),
    };
    return all;
}

std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char letter : text)
        if (letter == '"' || letter == '\\')
            out += std::string("\\") + letter;
        else if (letter == '\n' || isControl(letter))
            out += fmt::format("\\u{:04X}", static_cast<unsigned char>(letter));
        else
            out += letter;
    return out + "\"";
}

std::string sceneWith(std::string_view text) {
    static const std::regex free_text(
        R"re(^(title|name|note|x-drawn-by) = ("[^"]*"|"""[^"]*""")$|(file) = "hull.png")re",
        std::regex::ECMAScript | std::regex::multiline);
    const std::string scene = file::readBytes(mutants::completeFolder() + "/every-kind-12.toml");
    const std::string value = quoted(text);
    std::string out;
    auto rest = scene.cbegin();
    for (std::sregex_iterator match(scene.begin(), scene.end(), free_text), end; match != end;
         ++match) {
        out.append(rest, (*match)[0].first);
        const bool is_picture = (*match)[3].matched;
        // A picture must lie below the folder, whatever else its name is.
        if (is_picture && text.find("..") != std::string_view::npos)
            out += (*match)[0];
        else
            out += (is_picture ? "file" : (*match)[1].str()) + " = " + value;
        rest = (*match)[0].second;
    }
    return out.append(rest, scene.cend());
}

std::string findControl(std::string_view shown) {
    for (std::size_t i = 0; i < shown.size(); ++i) {
        if (isControl(shown[i]))
            return fmt::format("\\x{:02X}", static_cast<unsigned char>(shown[i]));
        if (shown[i] == '\xC2' && i + 1 < shown.size() &&
            static_cast<unsigned char>(shown[i + 1]) < 0xA0)
            return "a control character of C1";
    }
    for (const std::string& direction : directions())
        if (shown.find(direction) != std::string_view::npos)
            return "a change of writing direction";
    return "";
}

} // namespace ebbline::hostile
