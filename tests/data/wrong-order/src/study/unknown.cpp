// SPDX-License-Identifier: MIT
// Includes a header that the order does not know.
// Expect: includes cellar, which has no place in the order
#include "ebbline/cellar.h"
