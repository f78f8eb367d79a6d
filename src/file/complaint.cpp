// SPDX-License-Identifier: MIT
// What the parser says about a text that is no TOML, in the reader's language.
#include "complaint.h"

#include "ebbline/words.h"

#include <array>
#include <cctype>

namespace ebbline::file {
namespace {

/// The parser puts its sentences together from these; what it calls for stands beside what it
/// found.
constexpr std::array sentences{
    phrase("error while parsing {}: {}"),
    phrase("encountered end-of-file"),
    phrase("encountered EOF during incomplete utf-8 code point sequence"),
    phrase("encountered invalid utf-8 sequence"),
    phrase("encountered overlong utf-8 sequence"),
    phrase("could not determine value type"),
    phrase("expected {} between {} and {} (inclusive), saw {}"),
    phrase("expected hour between 0 to 59 (inclusive), saw {}"),
    phrase("expected {}, saw {}"),
    phrase("control characters other than TAB (U+0009) are explicitly prohibited in comments"),
    phrase("control characters other than TAB (U+0009) are explicitly prohibited"),
    phrase("unescaped control characters other than TAB (U+0009) are explicitly prohibited"),
    phrase("unexpected control character"),
    phrase("vertical tabs '\\v' and form-feeds '\\f' are not legal line breaks in TOML"),
    phrase("line-ending backslashes must be the last non-whitespace character on the line"),
    phrase("escape sequence '{}' is not supported in TOML 1.0.0 and earlier"),
    phrase("unknown escape sequence '{}'"),
    phrase("unicode surrogates (U+D800 - U+DFFF) are explicitly prohibited"),
    phrase("values greater than U+10FFFF are invalid"),
    phrase("underscores may only follow digits"),
    phrase("underscores must be followed by digits"),
    phrase("values may not begin with underscores"),
    phrase("leading zeroes are prohibited"),
    phrase("exceeds length limit of {} digits (consider using exponent notation)"),
    phrase("exceeds length limit of {} digits"),
    phrase("numeric value too long to identify type - cannot exceed {} characters"),
    phrase("fractional component exceeds maximum precision of {}"),
    phrase("'{}' could not be interpreted as a value"),
    phrase("'{}' is not representable in 64 bits"),
    phrase("hexadecimal floating-point values are not supported in TOML 1.0.0 and earlier"),
    phrase("multi-line strings are prohibited in keys"),
    phrase("multi-line strings are prohibited in dotted keys"),
    phrase("[[array-of-table]] brackets must be contiguous (i.e. [ [ this ] ] is prohibited)"),
    phrase("tables with blank bare keys are explicitly prohibited"),
    phrase("cannot insert '{}' into existing inline table"),
    phrase("cannot redefine existing {} '{}' as {}"),
    phrase("cannot redefine existing {} as dotted key-value pair"),
    phrase("cannot redefine existing {} '{}'"),
    // what is parsed
    phrase("comment"),
    phrase("string"),
    phrase("literal string"),
    phrase("unicode scalar sequence"),
    phrase("boolean"),
    phrase("floating-point"),
    phrase("hexadecimal floating-point"),
    phrase("decimal integer"),
    phrase("binary integer"),
    phrase("octal integer"),
    phrase("hexadecimal integer"),
    phrase("integer"),
    phrase("date"),
    phrase("time"),
    phrase("date-time"),
    phrase("date-time offset"),
    phrase("value"),
    phrase("key"),
    phrase("table"),
    phrase("table header"),
    phrase("inline table"),
    phrase("root table"),
    phrase("array"),
    phrase("array-of-tables"),
    phrase("key-value pair"),
    // what was expected or found
    phrase("space or tab"),
    phrase("hex digit"),
    phrase("hexadecimal digit"),
    phrase("digit"),
    phrase("decimal digit"),
    phrase("decimal digit or '.'"),
    phrase("decimal digit or exponent"),
    phrase("exponent digit"),
    phrase("exponent digit or sign"),
    phrase("exponent decimal digit or sign"),
    phrase("expected digit or sign"),
    phrase("fractional digits"),
    phrase("value-terminator"),
    phrase("4-digit year"),
    phrase("2-digit month"),
    phrase("2-digit day"),
    phrase("2-digit hour"),
    phrase("2-digit minute"),
    phrase("2-digit second"),
    phrase("month"),
    phrase("day"),
    phrase("hour"),
    phrase("minute"),
    phrase("second"),
    phrase("space, 'T' or 't'"),
    phrase("a comment or whitespace"),
    phrase("keys, tables, whitespace or comments"),
    phrase("bare key starting character or string delimiter"),
    phrase("comma"),
    phrase("comma or closing ']'"),
    phrase("comma or closing '}'"),
    phrase("value or closing ']'"),
    phrase("key or closing '}'"),
    phrase("key-value pair or closing '}'"),
    phrase("closing '}' (dangling comma)"),
};

} // namespace

std::string complaintOf(std::string_view description) {
    std::string message(description);
    if (!message.empty())
        message[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(message[0])));
    return fromEnglish(message, sentences);
}

} // namespace ebbline::file
