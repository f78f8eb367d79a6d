// SPDX-License-Identifier: MIT
// A survey in the words of the trade: what a practitioner needs first stands first.
#include "sheet.h"
#include "survey_names.h"

#include "ebbline/report.h"
#include "ebbline/text.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>

namespace ebbline::report {
namespace {

using text::fixed;
using Items = std::vector<std::string>;

std::string counted(std::size_t count, const std::string& one) {
    return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

class Writer {
public:
    Writer(const Network& network, const Survey& survey) : m_network(network), m_survey(survey) {}

    std::string write() {
        m_sheet.addLine(text::escapeControls(m_network.installation.title));
        m_sheet.addLine("");
        addLoop();
        addCall();
        addPolarity();
        addProtection();
        addUnfused();
        addSharing();
        addParallels();
        addBridges();
        addOpenEnds();
        addIslands();
        addCare();
        return m_sheet.text();
    }

private:
    [[nodiscard]] const Element& element(int index) const { return elementOf(m_network, index); }
    [[nodiscard]] const std::string& name(int index) const { return element(index).name; }
    [[nodiscard]] std::string node(int index) const {
        return m_network.nodes[static_cast<std::size_t>(index)];
    }

    /// "twin.1 1.5 mm², 9.1 m" of a conductor, else the name.
    [[nodiscard]] std::string describe(int index) const {
        const Element& one = element(index);
        if (one.kind != ElementKind::Conductor)
            return one.name;
        return fmt::format(
            "{} {} m of {:.3g} mm²", one.name, fixed(lengthOf(m_network, one), 1), one.area_mm2);
    }

    /// Conductors and devices by name, joints by their number.
    [[nodiscard]] Items describeWay(const std::vector<int>& elements) const {
        Items items;
        std::size_t joints = 0;
        for (const int index : elements)
            if (element(index).kind == ElementKind::Joint)
                ++joints;
            else
                items.push_back(describe(index));
        if (joints > 0)
            items.push_back(counted(joints, "joint"));
        return items;
    }

    void addRows(const std::string& label, const Items& rows) {
        for (std::size_t i = 0; i < rows.size(); ++i)
            m_sheet.add(i == 0 ? label : "", rows[i]);
    }

    void addLoop() {
        if (!m_survey.loop) {
            const Items open = namesOf(m_network, m_survey.interruptions);
            m_sheet.add("Supply loop",
                        open.empty()
                            ? std::string("NOT CLOSED: no way is drawn from one battery or charger "
                                          "to the fridge and back")
                            : "NOT CLOSED: open at " + listed(open));
            return;
        }
        const SupplyLoop& loop = *m_survey.loop;
        m_sheet.add("Supply loop",
                    fmt::format("{}, {} to {} and back, {} mΩ",
                                loop.reversed ? "closed, but PLUS AND MINUS ARE EXCHANGED"
                                              : "closed" + onceOn(loop),
                                name(loop.battery),
                                name(loop.controller),
                                fixed(loopMohm(loop), 0)));
        m_sheet.add("  plus side", joined(describeWay(elementsOf(loop.out))));
        m_sheet.add("  minus side", joined(describeWay(elementsOf(loop.back))));
    }

    [[nodiscard]] double loopMohm(const SupplyLoop& loop) const {
        double ohm = 0;
        for (const auto* way : {&loop.out, &loop.back})
            for (const Step& step : *way)
                ohm += element(step.element).ohm;
        return ohm * 1e3;
    }

    /// What is open at power-on and closed by an event.
    [[nodiscard]] std::string onceOn(const SupplyLoop& loop) const {
        Items later;
        for (const auto* way : {&loop.out, &loop.back})
            for (const Step& step : *way)
                if (!element(step.element).closed)
                    later.push_back(name(step.element));
        return later.empty()
                   ? ""
                   : " once " + listed(later) + (later.size() > 1 ? " are" : " is") + " on";
    }

    void addCall() {
        if (!m_survey.call_closed)
            m_sheet.add("Thermostat", "nothing is wired to its terminals");
        else
            m_sheet.add("Thermostat",
                        *m_survey.call_closed
                            ? "its loop is wired through"
                            : "its loop is NOT CLOSED: the fridge is never called");
    }

    void addPolarity() {
        Items rows;
        for (const Misplaced& place : m_survey.misplaced) {
            const std::string& who = name(place.element);
            if (place.plus_on_minus && place.minus_on_plus)
                rows.push_back(who + ": plus and minus are exchanged");
            else if (place.plus_on_minus)
                rows.push_back(who + ": its plus lies on the minus side");
            else
                rows.push_back(who + ": its minus lies on the plus side");
        }
        for (const int source : m_survey.shorted)
            rows.push_back(name(source) + ": its posts are joined by wiring alone, A DEAD SHORT");
        addRows("Wrong", rows);
    }

    void addProtection() {
        Items rows;
        for (const Protection& protection : m_survey.protections)
            rows.push_back(describeProtection(protection));
        if (rows.empty())
            rows.emplace_back("NONE");
        addRows("Fuses", rows);
        if (!m_survey.behind_several.empty())
            m_sheet.add("  none alone", joined(describeEach(m_survey.behind_several)));
    }

    [[nodiscard]] std::string describeProtection(const Protection& protection) const {
        std::string words = name(protection.element);
        if (protection.rating_a)
            words += fmt::format(" {:g} A", *protection.rating_a);
        if (element(protection.element).kind == ElementKind::Breaker)
            words += " breaker";
        if (protection.thinnest)
            words += ": thinnest behind it " + describe(*protection.thinnest);
        else
            words += ": no conductor relies on it alone";
        if (!protection.feeds.empty())
            words += "; feeds " + listed(namesOf(m_network, protection.feeds));
        return words;
    }

    [[nodiscard]] Items describeEach(const std::vector<int>& elements) const {
        Items items;
        for (const int index : elements)
            items.push_back(describe(index));
        return items;
    }

    void addUnfused() {
        std::map<int, Items> by_source;
        for (const Unfused& unfused : m_survey.unfused)
            by_source[unfused.source].push_back(describe(unfused.element));
        if (by_source.empty())
            m_sheet.add("Not fused", "nothing");
        Items rows;
        for (const auto& [source, items] : by_source)
            rows.push_back("from " + describeSource(source) + ": " + joined(items));
        addRows("Not fused", rows);
    }

    /// A charger says how much it can drive; a battery drives whatever the short takes.
    [[nodiscard]] std::string describeSource(int index) const {
        const Part* part = m_network.installation.findPart(element(index).part);
        const auto* charger = part == nullptr ? nullptr : std::get_if<Charger>(&part->body);
        return name(index) + (charger == nullptr
                                  ? ""
                                  : fmt::format(" (limits itself to {:g} A)", charger->current_a));
    }

    void addSharing() {
        if (!m_survey.loop)
            return;
        Items rows;
        for (const Sharing& sharing : m_survey.sharings) {
            Items sides;
            if (!sharing.out.empty())
                sides.push_back("plus side " + listed(conductorsOf(sharing.out)));
            if (!sharing.back.empty())
                sides.push_back("minus side " + listed(conductorsOf(sharing.back)));
            rows.push_back(name(sharing.consumer) + ": " + joined(sides, "; "));
        }
        if (rows.empty())
            rows.emplace_back("nothing else");
        addRows("Shares the feed", rows);
    }

    /// Names of what is no joint; of the joints where there is nothing else.
    [[nodiscard]] Items conductorsOf(const std::vector<int>& elements) const {
        Items items;
        for (const int index : elements)
            if (element(index).kind != ElementKind::Joint)
                items.push_back(name(index));
        return items.empty() ? namesOf(m_network, elements) : items;
    }

    void addParallels() {
        Items rows;
        for (const ParallelWays& ways : m_survey.parallels) {
            Items nodes;
            for (const int index : ways.nodes)
                nodes.push_back(node(index));
            rows.push_back(listed(conductorsOf(ways.elements)) +
                           (nodes.empty() ? "" : ", between " + listed(nodes)));
        }
        addRows("Side by side", rows);
    }

    void addBridges() {
        if (!m_survey.bridges.empty())
            m_sheet.add("Supply hangs on", joined(namesAndJoints(m_survey.bridges)));
    }

    [[nodiscard]] Items namesAndJoints(const std::vector<int>& elements) const {
        Items items;
        std::size_t joints = 0;
        for (const int index : elements)
            if (element(index).kind == ElementKind::Joint)
                ++joints;
            else
                items.push_back(name(index));
        if (joints > 0)
            items.push_back(counted(joints, "joint"));
        return items;
    }

    void addOpenEnds() {
        std::map<OpenKind, Items> by_kind;
        for (const OpenEnd& end : m_survey.open_ends)
            by_kind[end.kind].push_back(end.name);
        if (by_kind.empty())
            m_sheet.add("Open", "nothing");
        Items rows;
        for (const auto& [kind, names] : by_kind)
            rows.push_back(std::string(words(kind)) + ": " + joined(names));
        addRows("Open", rows);
    }

    static std::string_view words(OpenKind kind) {
        switch (kind) {
        case OpenKind::BareTerminal:
            return "nothing connected";
        case OpenKind::DeadEnd:
            return "leads no further";
        case OpenKind::Joint:
            return "joint off";
        case OpenKind::Contact:
            return "switched off";
        case OpenKind::Plug:
            return "not plugged in";
        case OpenKind::Fuse:
            return "blown";
        case OpenKind::Breaker:
            return "tripped";
        }
        return "";
    }

    void addIslands() {
        Items rows;
        for (const Island& island : m_survey.islands)
            if (!island.holds_fridge && island.nodes.size() > 1 && !isCall(island))
                rows.push_back(listed(partsIn(island)) +
                               (island.holds_source ? "" : ", without a battery or charger"));
        addRows("Apart from it", rows);
    }

    /// The thermostat's loop has its own line.
    [[nodiscard]] bool isCall(const Island& island) const {
        return std::ranges::any_of(island.nodes, [&](int index) {
            return node(index) == m_network.installation.subject + ".call" ||
                   node(index) == m_network.installation.subject + ".call-return";
        });
    }

    /// Parts by id; the runs where there are none.
    [[nodiscard]] Items partsIn(const Island& island) const {
        std::set<std::string> parts;
        std::set<std::string> runs;
        for (const int index : island.nodes) {
            const std::string terminal = node(index);
            const std::string owner = terminal.substr(0, terminal.find('.'));
            (m_network.installation.findRun(owner) == nullptr ? parts : runs).insert(owner);
        }
        const auto& shown = parts.empty() ? runs : parts;
        return {shown.begin(), shown.end()};
    }

    void addCare() {
        if (m_survey.unfused.empty() && m_survey.behind_several.empty())
            return;
        m_sheet.addLine("");
        m_sheet.addLine("Care: nothing stops a short circuit in what is not fused; isolate at the "
                        "battery before you touch");
        m_sheet.addLine("it. Local codes and licensed practice say how long such a lead may be.");
    }

    const Network& m_network;
    const Survey& m_survey;
    Sheet m_sheet{17};
};

} // namespace

std::string writeSurvey(const Network& network, const Survey& survey) {
    return Writer(network, survey).write();
}

} // namespace ebbline::report
