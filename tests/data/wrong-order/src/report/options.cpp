// SPDX-License-Identifier: MIT
// Reads the command line outside src/cli.
// Expect: belongs to cli alone
#include <CLI/CLI.hpp>
