// SPDX-License-Identifier: MIT
// Translation by gettext's binary tables, which travel inside the program.
#include "ebbline/words.h"

#include "ebbline/embedded.h"
#include "ebbline/error.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <stdexcept>
#include <utility>

namespace ebbline {
namespace {

constexpr std::string_view english = "en"; // the language of the sources
constexpr std::string_view table_ending = ".mo";

using Table = std::map<std::string_view, std::string_view>;

/// The format is described in gettext's manual, "The Format of GNU MO Files"; msgfmt writes it in
/// the order of bytes of the machine that builds. Read here, as glibc takes tables from installed
/// locales only and Boost.Locale would bring all of ICU into every worker.
class MoFile {
public:
    explicit MoFile(std::string_view bytes) : m_bytes(bytes) {
        EBBLINE_ASSERT(bytes.size() >= 28 && number(0) == 0x950412de, "msgfmt made the table");
    }

    [[nodiscard]] Table read() const {
        Table table;
        const std::uint32_t count = number(8);
        for (std::uint32_t i = 0; i < count; ++i)
            table.emplace(text(number(12) + 8 * i), text(number(16) + 8 * i));
        return table;
    }

private:
    [[nodiscard]] std::uint32_t number(std::size_t at) const {
        std::uint32_t value = 0;
        std::copy_n(m_bytes.data() + at, sizeof value, reinterpret_cast<char*>(&value));
        return value;
    }
    /// Where its length and its place stand at `at`.
    [[nodiscard]] std::string_view text(std::size_t at) const {
        return m_bytes.substr(number(at + 4), number(at));
    }

    std::string_view m_bytes;
};

struct State {
    Reader reader;
    Table table;
};

State& state() {
    static State current;
    return current;
}

} // namespace

const Reader& reader() {
    return state().reader;
}

void setReader(Reader reader) {
    if (std::ranges::count(languages(), reader.language) == 0)
        throw std::invalid_argument("no table of words for '" + reader.language + "'");
    state().table =
        reader.language == english
            ? Table()
            : MoFile(embedded::find(reader.language + std::string(table_ending))).read();
    state().reader = std::move(reader);
}

std::vector<std::string> languages() {
    std::vector<std::string> found{std::string(english)};
    for (const embedded::File& file : embedded::all())
        if (file.name.ends_with(table_ending))
            found.emplace_back(file.name.substr(0, file.name.size() - table_ending.size()));
    return found;
}

std::string languageOfEnvironment() {
    for (const char* name : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
        const char* value = std::getenv(name); // read before any thread is started
        if (value == nullptr || *value == '\0')
            continue;
        // language[_TERRITORY][.CODESET][@modifier]
        const std::string_view whole = value;
        const std::string language(whole.substr(0, whole.find_first_of("_.@")));
        if (std::ranges::count(languages(), language) > 0)
            return language;
        break;
    }
    return std::string(english);
}

std::string term(std::string_view name) {
    std::string spoken(name);
    std::ranges::replace(spoken, '-', ' ');
    return words(spoken.c_str());
}

std::string words(const char* text) {
    const auto place = state().table.find(text);
    return std::string(place == state().table.end() ? text : place->second);
}

} // namespace ebbline
