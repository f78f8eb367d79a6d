// SPDX-License-Identifier: MIT
// Uses graphs outside src/network.
// Expect: belongs to network alone
#include <boost/graph/adjacency_list.hpp>
