// SPDX-License-Identifier: MIT
// A job in this process, without walls, for debugging.
#include "sandbox.h"
#include "spice.h"

#include "ebbline/engine.h"

#include <array>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string>

namespace ebbline::engine {
namespace {

/// What a private folder changes in a process; put back on destruction.
class Kept {
public:
    Kept() : m_folder(std::filesystem::current_path()) {
        for (std::size_t i = 0; i < names.size(); ++i)
            if (const char* value = std::getenv(names[i]))
                m_values[i] = value;
    }
    ~Kept() {
        std::error_code ignored;
        std::filesystem::current_path(m_folder, ignored);
        for (std::size_t i = 0; i < names.size(); ++i)
            if (const auto& value = m_values[i]; value.has_value())
                setenv(names[i], value->c_str(), 1);
            else
                unsetenv(names[i]);
    }
    Kept(const Kept&) = delete;
    Kept& operator=(const Kept&) = delete;

private:
    static constexpr std::array names{"SPICE_SCRIPTS", "OMP_NUM_THREADS"};
    std::filesystem::path m_folder;
    std::array<std::optional<std::string>, names.size()> m_values;
};

bool startHere() {
    const Kept kept;
    const PrivateFolder folder;
    startSpice();
    return true;
}

} // namespace

Solution runHere(const Job& job) {
    static const bool started = startHere();
    static_cast<void>(started);
    return runSpice(job);
}

} // namespace ebbline::engine
