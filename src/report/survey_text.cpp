// SPDX-License-Identifier: MIT
// A survey in the words of the trade: what a practitioner needs first stands first.
#include "sheet.h"
#include "survey_names.h"

#include "ebbline/report.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <map>
#include <set>

namespace ebbline::report {
namespace {

using text::fixed;
using Items = std::vector<std::string>;

std::string countedJoints(std::size_t count) {
    return count == 1 ? words("1 joint") : words("{} joints", count);
}

const char* kindWords(OpenKind kind) {
    switch (kind) {
    case OpenKind::BareTerminal:
        return phrase("nothing connected");
    case OpenKind::DeadEnd:
        return phrase("leads no further");
    case OpenKind::Joint:
        return phrase("joint off");
    case OpenKind::Contact:
        return phrase("switched off");
    case OpenKind::Plug:
        return phrase("not plugged in");
    case OpenKind::Fuse:
        return phrase("blown");
    case OpenKind::Breaker:
        return phrase("tripped");
    }
    return "";
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

    /// "twin.1 9.1 m of 1.5 mm²" of a conductor, else the name.
    [[nodiscard]] std::string describe(int index) const {
        const Element& one = element(index);
        if (one.kind != ElementKind::Conductor)
            return one.name;
        return words("{} {} m of {}",
                     one.name,
                     fixed(lengthOf(m_network, one), 2),
                     text::tidyUnits(network::sizeWords(sizeOf(m_network, one))));
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
            items.push_back(countedJoints(joints));
        return items;
    }

    void addRows(const std::string& label, const Items& rows) {
        for (std::size_t i = 0; i < rows.size(); ++i)
            m_sheet.add(i == 0 ? label : "", rows[i]);
    }

    void addLoop() {
        if (!m_survey.loop) {
            const Items open = namesOf(m_network, m_survey.interruptions);
            m_sheet.add(words("Supply loop"),
                        open.empty() ? words("NOT CLOSED: no way is drawn from one battery or "
                                             "charger to the fridge and back")
                                     : words("NOT CLOSED: open at {}", listed(open)));
            return;
        }
        const SupplyLoop& loop = *m_survey.loop;
        m_sheet.add(words("Supply loop"),
                    words("{}, {} to {} and back, {} mΩ",
                          loop.reversed ? words("closed, but PLUS AND MINUS ARE EXCHANGED")
                                        : closedWords(loop),
                          name(loop.battery),
                          name(loop.controller),
                          fixed(loopMohm(loop), 0)));
        m_sheet.add("  " + words("plus side"), joined(describeWay(elementsOf(loop.out))));
        m_sheet.add("  " + words("minus side"), joined(describeWay(elementsOf(loop.back))));
    }

    [[nodiscard]] double loopMohm(const SupplyLoop& loop) const {
        double ohm = 0;
        for (const auto* way : {&loop.out, &loop.back})
            for (const Step& step : *way)
                ohm += element(step.element).ohm;
        return ohm * 1e3;
    }

    /// With what is open at power-on and closed by an event.
    [[nodiscard]] std::string closedWords(const SupplyLoop& loop) const {
        Items later;
        for (const auto* way : {&loop.out, &loop.back})
            for (const Step& step : *way)
                if (!element(step.element).closed)
                    later.push_back(name(step.element));
        return later.empty()      ? words("closed")
               : later.size() > 1 ? words("closed once {} are on", listed(later))
                                  : words("closed once {} is on", listed(later));
    }

    void addCall() {
        if (!m_survey.call_closed)
            m_sheet.add(words("Thermostat"), words("nothing is wired to its terminals"));
        else
            m_sheet.add(words("Thermostat"),
                        *m_survey.call_closed
                            ? words("its loop is wired through")
                            : words("its loop is NOT CLOSED: the fridge is never called"));
    }

    void addPolarity() {
        Items rows;
        for (const Misplaced& place : m_survey.misplaced) {
            const std::string& who = name(place.element);
            if (place.plus_on_minus && place.minus_on_plus)
                rows.push_back(words("{}: plus and minus are exchanged", who));
            else if (place.plus_on_minus)
                rows.push_back(words("{}: its plus lies on the minus side", who));
            else
                rows.push_back(words("{}: its minus lies on the plus side", who));
        }
        for (const int source : m_survey.shorted)
            rows.push_back(
                words("{}: its posts are joined by wiring alone, A DEAD SHORT", name(source)));
        addRows(words("Wrong"), rows);
    }

    void addProtection() {
        Items rows;
        for (const Protection& protection : m_survey.protections)
            rows.push_back(describeProtection(protection));
        if (rows.empty())
            rows.push_back(words("NONE"));
        addRows(words("Fuses"), rows);
        if (!m_survey.behind_several.empty())
            m_sheet.add("  " + words("none alone"), joined(describeEach(m_survey.behind_several)));
    }

    [[nodiscard]] std::string describeProtection(const Protection& protection) const {
        std::string who = name(protection.element);
        if (protection.rating_a)
            who += " " + text::figure(*protection.rating_a) + " A";
        if (element(protection.element).kind == ElementKind::Breaker)
            who += " " + term("breaker");
        const std::string guards =
            protection.thinnest
                ? words("{}: thinnest behind it {}", who, describe(*protection.thinnest))
                : words("{}: no conductor relies on it alone", who);
        return protection.feeds.empty()
                   ? guards
                   : words("{}; feeds {}", guards, listed(namesOf(m_network, protection.feeds)));
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
            m_sheet.add(words("Not fused"), words("nothing"));
        Items rows;
        for (const auto& [source, items] : by_source)
            rows.push_back(words("from {}: {}", describeSource(source), joined(items)));
        addRows(words("Not fused"), rows);
    }

    /// A charger says how much it can drive; a battery drives whatever the short takes.
    [[nodiscard]] std::string describeSource(int index) const {
        const Part* part = m_network.installation.findPart(element(index).part);
        const auto* charger = part == nullptr ? nullptr : std::get_if<Charger>(&part->body);
        return charger == nullptr ? name(index)
                                  : words("{} (limits itself to {} A)",
                                          name(index),
                                          text::figure(charger->current_a));
    }

    void addSharing() {
        if (!m_survey.loop)
            return;
        Items rows;
        for (const Sharing& sharing : m_survey.sharings) {
            Items sides;
            if (!sharing.out.empty())
                sides.push_back(words("plus side {}", listed(conductorsOf(sharing.out))));
            if (!sharing.back.empty())
                sides.push_back(words("minus side {}", listed(conductorsOf(sharing.back))));
            rows.push_back(name(sharing.consumer) + ": " + joined(sides, "; "));
        }
        if (rows.empty())
            rows.push_back(words("nothing else"));
        addRows(words("Shares the feed"), rows);
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
            const std::string all = listed(conductorsOf(ways.elements));
            rows.push_back(nodes.empty() ? all : words("{}, between {}", all, listed(nodes)));
        }
        addRows(words("Side by side"), rows);
    }

    void addBridges() {
        if (!m_survey.bridges.empty())
            m_sheet.add(words("Supply hangs on"), joined(namesAndJoints(m_survey.bridges)));
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
            items.push_back(countedJoints(joints));
        return items;
    }

    void addOpenEnds() {
        std::map<OpenKind, Items> by_kind;
        for (const OpenEnd& end : m_survey.open_ends)
            by_kind[end.kind].push_back(end.name);
        if (by_kind.empty())
            m_sheet.add(words("Open"), words("nothing"));
        Items rows;
        for (const auto& [kind, names] : by_kind)
            rows.push_back(words("{}: {}", words(kindWords(kind)), joined(names)));
        addRows(words("Open"), rows);
    }

    void addIslands() {
        Items rows;
        for (const Island& island : m_survey.islands)
            if (!island.holds_fridge && island.nodes.size() > 1 && !isCall(island))
                rows.push_back(island.holds_source ? listed(partsIn(island))
                                                   : words("{}, without a battery or charger",
                                                           listed(partsIn(island))));
        addRows(words("Apart from it"), rows);
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
        m_sheet.addLine(
            words("Care: nothing stops a short circuit in what is not fused; isolate at "
                  "the battery before you touch"));
        m_sheet.addLine(words("it. Local codes and licensed practice say how long such a lead may "
                              "be."));
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
