// SPDX-License-Identifier: MIT
// Scenes that are still TOML but no longer what somebody meant, seeded and repeatable.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace ebbline::mutants {

/// A changed scene, and in words what was changed.
struct Mutant {
    std::string text;
    std::string story;
};

/// Makes mutants of the given scenes; the same seed makes the same ones.
class Breeder {
public:
    Breeder(const std::vector<std::string>& scenes, std::uint64_t seed);
    ~Breeder();
    Breeder(const Breeder&) = delete;
    Breeder& operator=(const Breeder&) = delete;

    /// One scene with one to four changes.
    [[nodiscard]] Mutant breed();

private:
    struct Stock;
    std::unique_ptr<const Stock> m_stock;
    std::mt19937_64 m_random;
};

/// A scene to breed from; what it uses lies in the folder for complete scenes.
[[nodiscard]] std::vector<std::string> sceneTexts();
/// Folder of the scenes that hold every word of the format.
[[nodiscard]] std::string completeFolder();

} // namespace ebbline::mutants
