// SPDX-License-Identifier: MIT
// Text widths by FreeType from the files that fontconfig finds.
#include "font.h"

#include "ebbline/drawing.h"
#include "ebbline/error.h"

#include <fontconfig/fontconfig.h>
#include <ft2build.h>
#include FT_FREETYPE_H

#include <map>
#include <memory>
#include <mutex>

namespace ebbline::drawing {
namespace {

constexpr char32_t replacement = 0xFFFD;
// A character no font has is drawn as a box of about this share of the size.
constexpr double unknown_width = 0.7;

struct Closer {
    void operator()(FT_Library library) const { FT_Done_FreeType(library); }
    void operator()(FT_Face face) const { FT_Done_Face(face); }
    void operator()(FcPattern* pattern) const { FcPatternDestroy(pattern); }
    void operator()(FcCharSet* set) const { FcCharSetDestroy(set); }
};
using Library = std::unique_ptr<FT_LibraryRec_, Closer>;
using Face = std::unique_ptr<FT_FaceRec_, Closer>;
using Pattern = std::unique_ptr<FcPattern, Closer>;

/// The font file for the family, and for one character if given.
std::string findFile(bool bold, char32_t character) {
    const Pattern wanted(FcPatternCreate());
    FcPatternAddString(
        wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>(font_family)); // fontconfig's
    FcPatternAddInteger(wanted.get(), FC_WEIGHT, bold ? FC_WEIGHT_BOLD : FC_WEIGHT_REGULAR);
    if (character != 0) {
        const std::unique_ptr<FcCharSet, Closer> set(FcCharSetCreate());
        FcCharSetAddChar(set.get(), character);
        FcPatternAddCharSet(wanted.get(), FC_CHARSET, set.get());
    }
    FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);
    FcDefaultSubstitute(wanted.get());
    FcResult result = FcResultNoMatch;
    const Pattern found(FcFontMatch(nullptr, wanted.get(), &result));
    FcChar8* file = nullptr;
    if (!found || FcPatternGetString(found.get(), FC_FILE, 0, &file) != FcResultMatch)
        return "";
    return reinterpret_cast<const char*>(file);
}

/// One weight of the family, its widths remembered.
class Typeface {
public:
    explicit Typeface(bool bold) : m_bold(bold), m_file(findFile(bold, 0)) {
        FT_Library library = nullptr;
        if (FT_Init_FreeType(&library) == 0)
            m_library.reset(library);
        m_face = open(m_file);
    }

    [[nodiscard]] const std::string& file() const { return m_file; }

    /// Advance as a share of the size.
    [[nodiscard]] double advance(char32_t character) {
        const std::lock_guard lock(m_mutex);
        const auto place = m_advances.find(character);
        if (place != m_advances.end())
            return place->second;
        return m_advances[character] = measure(character);
    }

private:
    [[nodiscard]] Face open(const std::string& file) const {
        FT_Face face = nullptr;
        if (!m_library || FT_New_Face(m_library.get(), file.c_str(), 0, &face) != 0)
            return nullptr;
        return Face(face);
    }

    [[nodiscard]] double measure(char32_t character) const {
        if (const auto own = advanceIn(m_face.get(), character))
            return *own;
        const Face other = open(findFile(m_bold, character));
        return advanceIn(other.get(), character).value_or(unknown_width);
    }

    [[nodiscard]] static std::optional<double> advanceIn(FT_Face face, char32_t character) {
        if (face == nullptr || !FT_IS_SCALABLE(face))
            return std::nullopt;
        const FT_UInt glyph = FT_Get_Char_Index(face, character);
        if (glyph == 0 || FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) != 0)
            return std::nullopt;
        return static_cast<double>(face->glyph->metrics.horiAdvance) / face->units_per_EM;
    }

    bool m_bold;
    std::string m_file;
    Library m_library;
    Face m_face;
    std::map<char32_t, double> m_advances;
    std::mutex m_mutex;
};

/// Read once: finding and opening fonts takes longer than drawing a picture.
Typeface& typeface(bool bold) {
    static Typeface regular(false);
    static Typeface heavy(true);
    return bold ? heavy : regular;
}

/// Length of the UTF-8 sequence that a byte begins; 0 when it begins none.
std::size_t sequenceLength(unsigned char lead) {
    if (lead < 0x80)
        return 1;
    if (lead >= 0xC2 && lead < 0xE0)
        return 2;
    if (lead >= 0xE0 && lead < 0xF0)
        return 3;
    return lead >= 0xF0 && lead < 0xF5 ? 4 : 0;
}

} // namespace

std::u32string codePoints(std::string_view utf8) {
    std::u32string text;
    for (std::size_t i = 0; i < utf8.size();) {
        const auto lead = static_cast<unsigned char>(utf8[i]);
        const std::size_t length = sequenceLength(lead);
        char32_t value = length <= 1 ? lead : lead & (0xFFU >> (length + 1));
        bool good = length > 0 && i + length <= utf8.size();
        for (std::size_t k = 1; good && k < length; ++k) {
            const auto next = static_cast<unsigned char>(utf8[i + k]);
            good = (next & 0xC0U) == 0x80U;
            value = value << 6U | (next & 0x3FU);
        }
        text += good ? value : replacement;
        i += good ? length : 1;
    }
    return text;
}

std::string utf8Of(std::u32string_view text) {
    std::string out;
    for (const char32_t value : text) {
        const auto add = [&](char32_t bits) { out += static_cast<char>(bits); };
        if (value < 0x80) {
            add(value);
        } else if (value < 0x800) {
            add(0xC0U | value >> 6U);
            add(0x80U | (value & 0x3FU));
        } else if (value < 0x10000) {
            add(0xE0U | value >> 12U);
            add(0x80U | (value >> 6U & 0x3FU));
            add(0x80U | (value & 0x3FU));
        } else {
            add(0xF0U | value >> 18U);
            add(0x80U | (value >> 12U & 0x3FU));
            add(0x80U | (value >> 6U & 0x3FU));
            add(0x80U | (value & 0x3FU));
        }
    }
    return out;
}

std::vector<Letter> lettersOf(std::string_view utf8, double size, bool bold) {
    std::vector<Letter> letters;
    for (const char32_t character : codePoints(utf8))
        letters.push_back({character, typeface(bold).advance(character) * size});
    return letters;
}

double textWidth(std::string_view utf8, double size, bool bold) {
    double width = 0;
    for (const char32_t character : codePoints(utf8))
        width += typeface(bold).advance(character);
    return width * size;
}

std::string shortened(std::string_view utf8, double size, bool bold, double most_width) {
    if (textWidth(utf8, size, bold) <= most_width)
        return std::string(utf8);
    std::u32string text = codePoints(utf8);
    const double room = most_width - textWidth("…", size, bold);
    while (!text.empty() && textWidth(utf8Of(text), size, bold) > room)
        text.pop_back();
    while (!text.empty() && text.back() == U' ')
        text.pop_back();
    return text.empty() ? "" : utf8Of(text) + "…";
}

std::string fontFile(bool bold) {
    return typeface(bold).file();
}

} // namespace ebbline::drawing
