// SPDX-License-Identifier: MIT
// What people and programs read: the text on a terminal, the JSON object.
#pragma once

#include "ebbline/inquiry.h"
#include "ebbline/survey.h"

#include <span>
#include <string>

namespace ebbline::report {

/// The verdict, where the voltage is lost, what happened when, and the cautions; plain text, UTF-8,
/// control characters of the scene's own texts made visible.
[[nodiscard]] std::string writeText(const Inquiry& inquiry);

/// One object as assets/start.schema.json describes; ends with a line feed.
[[nodiscard]] std::string writeJson(const Inquiry& inquiry);

/// Voltage, filtered voltage, current and speed at every stored instant, as CSV with a head.
[[nodiscard]] std::string writeWaveform(const Waveform& waveform);

/// Cause and first action, a line each.
[[nodiscard]] std::string writeHeadline(const Headline& headline);

/// The rules, broken ones first, each with its figures, reason and source. A kept drop rule says
/// that it is one.
[[nodiscard]] std::string writeRules(std::span<const RuleFinding> findings);
/// One line per loss: what of it need not be, what it rests on, and the sum on paper.
[[nodiscard]] std::string writeLosses(std::span<const Loss> losses);

/// The same as JSON arrays; each ends with a line feed.
[[nodiscard]] std::string writeRulesJson(std::span<const RuleFinding> findings);
[[nodiscard]] std::string writeLossesJson(std::span<const Loss> losses);

/// What the graph says, in the words of the trade; a caution where something is not fused.
[[nodiscard]] std::string writeSurvey(const Network& network, const Survey& survey);
/// The same as one object, as assets/check.schema.json describes; ends with a line feed.
[[nodiscard]] std::string writeSurveyJson(const Network& network, const Survey& survey);

/// Which lists `ebbline parts` shows.
struct Listing {
    bool catalogues = false; ///< conductors, joints, fuse ratings, models of parts
    bool terminals = false;  ///< of every kind of part
    bool keys = false;       ///< every key with unit, range, class and meaning
};
[[nodiscard]] std::string writeParts(const Catalogues& catalogues, const Listing& listing);
/// The same as one object, as assets/parts.schema.json describes; ends with a line feed.
[[nodiscard]] std::string writePartsJson(const Catalogues& catalogues, const Listing& listing);

} // namespace ebbline::report
