// SPDX-License-Identifier: MIT
// Every text shown, with its place.
#include "record.h"

#include "ebbline/text.h"

#include <cerrno>
#include <cmath>
#include <system_error>
#include <utility>
#include <variant>

namespace ebbline::window {
namespace {

std::string stateOf(const Desk& desk) {
    if (desk.now() == nullptr)
        return "none now";
    const bool is_draft = desk.now()->inquiry.examination.accuracy == Accuracy::Draft;
    return std::string(is_draft ? "draft" : "final") + (desk.isOld() ? " old" : " now");
}

std::string lineOf(const Box& box, const std::string& text) {
    return text::number(box.x) + " " + text::number(box.y) + " " + text::number(box.width) + " " +
           text::number(box.height) + " " + text::escapeControls(text) + "\n";
}

} // namespace

Record::Record(const std::string& file) {
    if (file.empty())
        return;
    m_file.open(file, std::ios::binary);
    if (!m_file)
        throw std::system_error(errno, std::generic_category(), file);
}

void Record::keep(const Desk& desk, const Drawing& drawing, const FrameCost& cost) {
    if (!m_file.is_open())
        return;
    const std::string heading = "frame " + text::number(desk.player().at()) + " " + stateOf(desk);
    std::string texts;
    for (const Group& group : drawing.groups)
        for (const auto& item : group.items)
            if (const auto* label = std::get_if<Label>(&item))
                texts += lineOf(label->box, label->text);
    if (desk.leads())
        for (const TerminalPlace& place : drawing.terminals)
            texts += lineOf({place.at.x, place.at.y, 0, 0}, place.terminal.text());
    if (heading == m_heading && texts == m_last)
        return;
    m_file << heading;
    for (const double took_s : {cost.layout_s, cost.painting_s, cost.display_s})
        m_file << ' ' << text::number(std::round(1e6 * took_s) / 1e3);
    m_file << '\n' << texts << std::flush;
    m_heading = heading;
    m_last = std::move(texts);
}

} // namespace ebbline::window
