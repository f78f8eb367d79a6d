// SPDX-License-Identifier: MIT
// Calls the simulator outside src/engine.
// Expect: belongs to engine alone
#include <ngspice/sharedspice.h>
