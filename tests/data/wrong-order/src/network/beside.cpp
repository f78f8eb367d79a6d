// SPDX-License-Identifier: MIT
// Includes what lies beside it.
// Expect: includes file, which does not lie to the left of network
#include <ebbline/file.h>
