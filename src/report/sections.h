// SPDX-License-Identifier: MIT
// The sections of the page as values for its template, which escapes every one of them.
#pragma once

#include "ebbline/inquiry.h"

#include <kainjow/mustache.hpp>

#include <string>
#include <vector>

namespace ebbline::report {

using Fields = kainjow::mustache::data;

/// A text of the scene, control characters made visible.
[[nodiscard]] Fields plain(const std::string& text);
/// Sets what is not empty; an empty text would count as there.
void setText(Fields& fields, const std::string& name, const std::string& text);
[[nodiscard]] Fields listOf(const std::vector<std::string>& texts);

/// Heading, outcome, reasons, first action, figures, events, meters.
void addVerdict(const Inquiry& inquiry, Fields& page);
/// Every row of the ledger.
void addLosses(const Inquiry& inquiry, Fields& page);
void addRules(const Inquiry& inquiry, Fields& page);
void addRemedies(const Inquiry& inquiry, Fields& page);
/// Parts and cables with their sizes, lengths and joints.
void addParts(const Installation& installation, Fields& page);
/// What the numbers rest on.
void addAssumptions(const Inquiry& inquiry, Fields& page);

} // namespace ebbline::report
