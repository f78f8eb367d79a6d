// SPDX-License-Identifier: MIT
// Stock ngspice on a circuit text, and its binary raw file.
#include "raw_file.h"

#include "scratch.h"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

namespace ebbline {
namespace {

std::size_t countAfter(const std::string& header, const std::string& label) {
    const auto at = header.find(label);
    if (at == std::string::npos)
        throw std::runtime_error("the raw file has no '" + label + "'");
    return std::stoul(header.substr(at + label.size()));
}

std::vector<std::string> namesIn(const std::string& header, std::size_t count) {
    std::istringstream text(header.substr(header.find("Variables:\n") + 11));
    std::vector<std::string> names(count);
    std::string skipped;
    for (std::string& name : names)
        text >> skipped >> name >> skipped;
    return names;
}

RawFile parse(const std::string& bytes) {
    const std::string mark = "Binary:\n";
    const auto at = bytes.find(mark);
    if (at == std::string::npos)
        throw std::runtime_error("no raw file");
    const std::string header = bytes.substr(0, at);
    const std::size_t variables = countAfter(header, "No. Variables:");
    const std::size_t points = countAfter(header, "No. Points:");
    if (bytes.size() - at - mark.size() < points * variables * sizeof(double))
        throw std::runtime_error("the raw file ends before its values");
    RawFile raw{namesIn(header, variables), {}};
    raw.values.assign(variables, std::vector<double>(points));
    const char* data = bytes.data() + at + mark.size();
    for (std::size_t point = 0; point < points; ++point)
        for (auto& vector : raw.values) {
            std::memcpy(&vector[point], data, sizeof(double));
            data += sizeof(double);
        }
    return raw;
}

} // namespace

const std::vector<double>& RawFile::of(const std::string& vector) const {
    std::string name = vector;
    if (const auto mark = vector.find("#branch"); mark != std::string::npos)
        name = "i(" + vector.substr(0, mark) + ")";
    const auto place = std::ranges::find(names, name);
    if (place == names.end())
        throw std::runtime_error("the raw file has no vector " + name);
    return values[static_cast<std::size_t>(place - names.begin())];
}

RawFile runStock(const std::string& circuit) {
    const Scratch scratch;
    const std::string deck = (scratch.path() / "deck.cir").string();
    const std::string raw = (scratch.path() / "out.raw").string();
    std::ofstream(deck) << circuit;
    const std::string command = "cd '" + scratch.path().string() + "' && ngspice -n -b -r '" + raw +
                                "' '" + deck + "' > log 2>&1";
    static_cast<void>(std::system(command.c_str())); // the raw file decides
    std::ifstream file(raw, std::ios::binary);
    return parse({std::istreambuf_iterator<char>(file), {}});
}

} // namespace ebbline
