// SPDX-License-Identifier: MIT
// Writes JSON outside src/report.
// Expect: belongs to report alone
#include <nlohmann/json.hpp>
