// SPDX-License-Identifier: MIT
// Includes a private header of another folder by its name.
// Expect: includes ways.h, which is no header of installation
#include "ways.h"
