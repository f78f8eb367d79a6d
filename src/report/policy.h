// SPDX-License-Identifier: MIT
// The policy of a page: which of its own styles and scripts may act.
#pragma once

#include "ebbline/embedded.h"

#include <string>

namespace ebbline::report {

/// The hash by which a policy lets an embedded file in: of its text, base64.
[[nodiscard]] std::string policyHash(const embedded::File& file);

} // namespace ebbline::report
