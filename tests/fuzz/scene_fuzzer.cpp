// SPDX-License-Identifier: MIT
// The scene reader and what follows it, for libFuzzer: clang++ with -DEBBLINE_FUZZ=ON, then
// scene_fuzzer -max_len=8192 -timeout=10 <folder of findings> tests/fuzz/corpus
#include "passage.h"

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto passage = ebbline::fuzz::pass({reinterpret_cast<const char*>(data), size});
    if (!passage.broken.empty()) {
        std::fprintf(stderr, "%s\n", passage.broken.c_str());
        std::abort();
    }
    return 0;
}
