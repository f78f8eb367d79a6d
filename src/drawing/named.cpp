// SPDX-License-Identifier: MIT
// Sentences of the verdict, which speak of ids, as people read them.
#include "named.h"

#include "names.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

/// Units as people write them.
std::string tidy(const std::string& plain) {
    std::string sentence = text::tidyUnits(plain);
    // A number and its unit stay on one line.
    for (const char* unit : {"mm²", "mΩ", "V", "A", "s", "m", "%"})
        for (const char* after : {" ", ".", ",", ";", ":", ")"})
            for (char digit = '0'; digit <= '9'; ++digit)
                text::replaceAll(sentence,
                                 std::string(1, digit) + " " + unit + after,
                                 std::string(1, digit) + "\u00a0" + unit + after);
    return sentence;
}

/// What a word of a sentence means in the scene, where it is an id; ids that are ordinary words
/// are left alone unless the sentence is about them.
std::string nameInstead(const Moment& moment, const std::string& word) {
    const Installation& installation = moment.examination().network.installation;
    const auto is_rule = [&](const RuleFinding& finding) { return finding.rule == word; };
    if (std::ranges::any_of(moment.inquiry.rules, is_rule)) {
        return words("“{}”", term(word));
    }
    if (word != moment.inquiry.headline.element && word.find_first_of("-.") == std::string::npos)
        return word;
    if (findJoint(installation, word))
        return nameOfJoint(installation, word);
    const std::string owner = word.substr(0, word.find('.'));
    if (const Run* run = installation.findRun(owner))
        return nameOf(*run);
    const Part* part = installation.findPart(owner);
    return part == nullptr ? word : nameOf(*part);
}

} // namespace

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string withNames(const Moment& moment, const std::string& sentence) {
    std::string result;
    std::string word;
    const auto finish = [&] {
        // A full stop at the end is the sentence's.
        const std::size_t stops = word.size() - (word.find_last_not_of('.') + 1);
        const std::string stem = word.substr(0, word.size() - stops);
        result += stem.empty() ? "" : nameInstead(moment, stem);
        result.append(stops, '.');
        word.clear();
    };
    for (const char character : sentence) {
        const bool in_id = (character >= 'a' && character <= 'z') ||
                           (character >= '0' && character <= '9') || character == '-' ||
                           character == '.';
        if (in_id) {
            word += character;
            continue;
        }
        finish();
        result += character;
    }
    finish();
    return capital(tidy(result));
}

} // namespace ebbline::drawing
