// SPDX-License-Identifier: MIT
// Includes what lies to its right.
// Expect: includes engine, which does not lie to the left of network
#include "ebbline/engine.h"
