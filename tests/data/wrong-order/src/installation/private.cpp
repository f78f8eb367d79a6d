// SPDX-License-Identifier: MIT
// Includes a private header of another folder by its path.
// Expect: includes ../network/ways.h, which is no header of installation
#include "../network/ways.h"
