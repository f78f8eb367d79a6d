// SPDX-License-Identifier: MIT
// A public header that includes what lies to its right.
// Expect: includes netlist, which does not lie to the left of installation
#include "ebbline/netlist.h"
