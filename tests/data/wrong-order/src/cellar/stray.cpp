// SPDX-License-Identifier: MIT
// Lies in a folder that the order does not know.
// Expect: folder cellar has no place in the order
#include "ebbline/text.h"
