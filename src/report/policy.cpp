// SPDX-License-Identifier: MIT
// The policy of a page: which of its own styles and scripts may act.
#include "policy.h"

#include <string_view>

namespace ebbline::report {
namespace {

/// Of hexadecimal digits, the bytes they stand for.
std::string base64(std::string_view digits) {
    static constexpr std::string_view letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    constexpr std::string_view hexadecimal = "0123456789abcdef";
    std::string out;
    unsigned bits = 0;
    int count = 0; // of bits not written yet
    for (const char digit : digits) {
        bits = (bits << 4U) | static_cast<unsigned>(hexadecimal.find(digit));
        count += 4;
        if (count >= 6) {
            count -= 6;
            out += letters[(bits >> static_cast<unsigned>(count)) & 63U];
        }
    }
    if (count > 0)
        out += letters[(bits << static_cast<unsigned>(6 - count)) & 63U];
    out.append((4 - out.size() % 4) % 4, '=');
    return out;
}

} // namespace

std::string policyHash(const embedded::File& file) {
    return base64(file.sha256);
}

} // namespace ebbline::report
