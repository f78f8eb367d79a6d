// SPDX-License-Identifier: MIT
// Sheets of paper for a class.
#include "paper.h"

#include "ebbline/error.h"
#include "ebbline/study.h"
#include "ebbline/words.h"

#include <cerrno>
#include <chrono>
#include <fstream>
#include <system_error>
#include <utility>

namespace ebbline::desk {
namespace {

void writeFile(const std::filesystem::path& path, const std::string& text) {
    std::ofstream file(path, std::ios::binary);
    file << text << std::flush;
    if (!file)
        throw std::system_error(errno, std::generic_category(), path.string());
}

std::string writeBoth(const Installation& installation,
                      const Models& models,
                      const engine::PoolSettings& settings,
                      const HandoutEdition& edition,
                      const std::filesystem::path& stem) {
    const std::string class_file = stem.string() + "-class.html";
    const std::string answer_file = stem.string() + "-answers.html";
    writeFile(class_file, report::writeClassSheet(installation, models.catalogues, edition));
    const auto engine = engine::makePool(settings);
    const Inquiry inquiry =
        study::inquire(*engine, installation, models, {}, [](const std::string& /*step*/) {});
    writeFile(answer_file, report::writeAnswerSheet(inquiry, models.catalogues, edition));
    return words("Written for paper: {} and {}", class_file, answer_file);
}

} // namespace

void PaperWriter::write(Installation installation,
                        Models models,
                        engine::PoolSettings settings,
                        HandoutEdition edition,
                        std::filesystem::path stem) {
    if (m_work.valid())
        return;
    m_work = std::async(std::launch::async,
                        [installation = std::move(installation),
                         models = std::move(models),
                         settings = std::move(settings),
                         edition = std::move(edition),
                         stem = std::move(stem)] {
                            return writeBoth(installation, models, settings, edition, stem);
                        });
}

std::optional<std::string> PaperWriter::take() {
    using namespace std::chrono_literals;
    if (!m_work.valid() || m_work.wait_for(0s) != std::future_status::ready)
        return std::nullopt;
    try {
        return m_work.get();
    } catch (const std::system_error& error) {
        return describe(error);
    } catch (const std::runtime_error& error) {
        return error.what();
    }
}

} // namespace ebbline::desk
