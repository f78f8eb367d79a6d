// SPDX-License-Identifier: MIT
// Reads files outside src/file.
// Expect: belongs to file alone
#include <toml++/toml.h>
