// SPDX-License-Identifier: MIT
// The bytes of a file, of which one more than the largest that is read is enough.
#include "parse.h"

#include "ebbline/file.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <array>
#include <cerrno>
#include <cstdio>
#include <memory>
#include <system_error>

namespace ebbline::file {
namespace {

[[noreturn]] void refuse(const std::filesystem::path& path) {
    throw std::system_error(errno,
                            std::generic_category(),
                            words("cannot read '{}'", text::escapeControls(path.string())));
}

} // namespace

std::string readBytes(const std::filesystem::path& path) {
    const auto close = [](std::FILE* file) { std::fclose(file); };
    const std::unique_ptr<std::FILE, decltype(close)> file(std::fopen(path.c_str(), "rb"), close);
    if (file == nullptr)
        refuse(path);
    std::string bytes;
    std::array<char, 65536> block{};
    while (bytes.size() <= largest_file && std::feof(file.get()) == 0) {
        const std::size_t count = std::fread(block.data(), 1, block.size(), file.get());
        if (std::ferror(file.get()) != 0)
            refuse(path);
        bytes.append(block.data(), count);
    }
    return bytes;
}

} // namespace ebbline::file
