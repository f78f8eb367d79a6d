// SPDX-License-Identifier: MIT
// Includes what lies to its right; the check of the order must find it.
#include "ebbline/engine.h"
