// SPDX-License-Identifier: MIT
// Words for keys: the unit in a name, the range, the class.
#pragma once

#include "ebbline/installation.h"

#include <string>
#include <string_view>

namespace ebbline::report {

/// The unit suffix of a key's name, "mohm" of "resistance_mohm"; empty when there is none.
[[nodiscard]] std::string_view unitOf(std::string_view key);
/// The unit as people write it: "mΩ".
[[nodiscard]] std::string_view writtenUnit(std::string_view unit);
/// "0 to 100", "12 or 24", "yes or no", "new, tired, corroded or loose".
[[nodiscard]] std::string rangeOf(const installation::Key& key);
/// "drawn", "quality", "state".
[[nodiscard]] std::string_view nameOf(installation::KeyClass key_class);
/// "number", "flag", "text".
[[nodiscard]] std::string_view nameOf(installation::ValueType type);
/// A number as people write it, a flag or a text.
[[nodiscard]] std::string written(const Value& value);

} // namespace ebbline::report
