// SPDX-License-Identifier: MIT
// The rows of positions that what-if keys go through.
#include "ebbline/handles.h"

#include "ebbline/network.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace ebbline {

bool Handle::turn(int direction) {
    if (direction > 0 ? at + 1 >= rungs.size() : at == 0)
        return false;
    at = direction > 0 ? at + 1 : at - 1;
    return true;
}

namespace desk {
namespace {

/// Positions by the value that orders them.
class Row {
public:
    Row(HandleKind kind, std::string on)
        : m_handle{.kind = kind, .on = std::move(on), .rungs = {}} {}

    void add(double order, std::string text, std::vector<Change> changes) {
        m_rungs.try_emplace(order, Rung{std::move(text), std::move(changes)});
    }

    /// The position that is as drawn; one that was added at the same place, or looks the same,
    /// gives way.
    [[nodiscard]] Handle take(double order, std::string text) {
        std::erase_if(m_rungs, [&](const auto& other) { return other.second.text == text; });
        m_rungs[order] = {std::move(text), {}};
        for (auto& [at, rung] : m_rungs) {
            if (at == order)
                m_handle.drawn = m_handle.at = m_handle.rungs.size();
            m_handle.rungs.push_back(std::move(rung));
        }
        return std::move(m_handle);
    }

private:
    Handle m_handle;
    std::map<double, Rung> m_rungs;
};

Change set(const std::string& path, Value value) {
    return Set{path, std::move(value)};
}

class Finder {
public:
    Finder(const Installation& installation, const Catalogues& catalogues)
        : m_installation(installation), m_catalogues(catalogues),
          m_network(network::build(installation, catalogues)) {}

    [[nodiscard]] std::vector<Handle> find() {
        if (const Run* run = mainRun()) {
            addArea(*run);
            addLength(*run);
        }
        addCharge();
        addCharging();
        addJoint();
        addWarmth();
        return std::move(m_found);
    }

private:
    /// Elements of the supply loop, in the order of the way.
    [[nodiscard]] std::vector<const Element*> loop() const {
        std::vector<const Element*> elements;
        if (!m_network.loop)
            return elements;
        for (const auto& way : {m_network.loop->out, m_network.loop->back})
            for (const Step& step : way)
                elements.push_back(&m_network.elements[static_cast<std::size_t>(step.element)]);
        return elements;
    }

    /// The cable that holds most of the loop's resistance.
    [[nodiscard]] const Run* mainRun() const {
        std::map<std::string, double> ohms;
        for (const Element* element : loop())
            if (element->kind == ElementKind::Conductor)
                ohms[element->part] += element->ohm;
        const auto most =
            std::ranges::max_element(ohms, {}, [](const auto& one) { return one.second; });
        return most == ohms.end() ? nullptr : m_installation.findRun(most->first);
    }

    /// The cable and those of its size: plus and minus are thickened together. For their length
    /// only those that are about as long, as out and back of one way are.
    [[nodiscard]] std::vector<std::string> matesOf(const Run& main, bool as_long) const {
        constexpr double alike = 1.25;
        std::vector<std::string> mates;
        for (const Element* element : loop()) {
            const Run* run = m_installation.findRun(element->part);
            if (element->kind != ElementKind::Conductor || run == nullptr ||
                run->cores.front().size != main.cores.front().size)
                continue;
            const bool is_alike =
                run->length() < alike * main.length() && main.length() < alike * run->length();
            if ((is_alike || !as_long) && std::ranges::find(mates, run->id) == mates.end())
                mates.push_back(run->id);
        }
        return mates;
    }

    static std::vector<Change>
    setAll(const std::vector<std::string>& runs, const std::string& key, double value) {
        std::vector<Change> changes;
        changes.reserve(runs.size());
        for (const std::string& run : runs)
            changes.push_back(set(run + key, value));
        return changes;
    }

    void addArea(const Run& run) {
        const Size& size = run.cores.front().size;
        const auto runs = matesOf(run, false);
        Row row(HandleKind::Area, run.id);
        if (size.scale == SizeScale::Mm2) {
            const auto sizes = m_catalogues.conductors.find(run.cores.front().conductor);
            if (sizes != m_catalogues.conductors.end())
                for (const auto& [area_mm2, mohm_per_m] : sizes->second)
                    row.add(area_mm2,
                            sizeText({size.scale, area_mm2}),
                            setAll(runs, ".area_mm2", area_mm2));
        } else {
            const char* key = size.scale == SizeScale::Awg ? ".awg" : ".sae";
            for (const double gauge : {18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3})
                row.add(-gauge, sizeText({size.scale, gauge}), setAll(runs, key, gauge));
        }
        const double order = size.scale == SizeScale::Mm2 ? size.value : -size.value;
        m_found.push_back(row.take(order, sizeText(size)));
    }

    [[nodiscard]] static std::string sizeText(const Size& size) {
        return text::tidyUnits(network::sizeWords(size));
    }

    void addLength(const Run& run) {
        constexpr double most_m = 60;
        const double drawn_m = run.length();
        const double step_m = drawn_m < 3 ? 0.25 : drawn_m < 12 ? 0.5 : 1;
        const auto runs = matesOf(run, true);
        Row row(HandleKind::Length, run.id);
        for (int i = 1; i * step_m <= std::min(most_m, 3 * drawn_m + 4 * step_m); ++i)
            row.add(i * step_m, metres(i * step_m), stretched(runs, i * step_m / drawn_m));
        m_found.push_back(row.take(drawn_m, metres(drawn_m)));
    }

    /// Each run as long as it is times a factor.
    [[nodiscard]] std::vector<Change> stretched(const std::vector<std::string>& runs,
                                                double factor) const {
        std::vector<Change> changes;
        changes.reserve(runs.size());
        for (const std::string& id : runs)
            changes.push_back(set(id + ".length_m", m_installation.findRun(id)->length() * factor));
        return changes;
    }

    [[nodiscard]] static std::string metres(double length_m) {
        constexpr double per_m = 1e3; // a sum of pieces may be a hair beside its millimetre
        return words("{} m", text::figure(std::round(length_m * per_m) / per_m));
    }

    void addCharge() {
        if (!m_network.loop)
            return;
        const Element& source =
            m_network.elements[static_cast<std::size_t>(m_network.loop->battery)];
        const Part* part = m_installation.findPart(source.part);
        const auto* battery = part == nullptr ? nullptr : std::get_if<Battery>(&part->body);
        if (battery == nullptr)
            return;
        m_battery = part->id;
        Row row(HandleKind::Charge, part->id);
        for (int pct = 10; pct <= 100; pct += 10)
            row.add(pct, percent(pct), {set(part->id + ".charge_pct", static_cast<double>(pct))});
        m_found.push_back(row.take(battery->charge_pct, percent(battery->charge_pct)));
    }

    [[nodiscard]] static std::string percent(double value) {
        return words("{} %", text::figure(value));
    }

    /// The charging sources that were drawn, all of them; one at the battery's posts where there is
    /// none.
    void addCharging() {
        std::vector<Change> on;
        std::vector<Change> off;
        bool is_on = false;
        for (const Part& part : m_installation.parts)
            if (const auto* charger = std::get_if<Charger>(&part.body)) {
                is_on = is_on || charger->on;
                on.push_back(set(part.id + ".on", true));
                off.push_back(set(part.id + ".on", false));
            }
        if (on.empty())
            on = oneMore();
        if (on.empty())
            return;
        Row row(HandleKind::Charging, "");
        row.add(0, words("off"), std::move(off));
        row.add(1, words("on"), std::move(on));
        m_found.push_back(row.take(is_on ? 1 : 0, is_on ? words("on") : words("off")));
    }

    [[nodiscard]] std::vector<Change> oneMore() const {
        const Part* battery = m_installation.findPart(m_battery);
        if (battery == nullptr || m_installation.findPart(charger_id) != nullptr)
            return {};
        Charger charger;
        charger.voltage_v *= std::get<Battery>(battery->body).nominal_v / 12;
        std::vector<Change> changes{Place{Part{.id = charger_id, .body = charger}}};
        for (const char* post : {"plus", "minus"}) {
            Core core{.from = {charger_id, post}, .to = {battery->id, post}};
            core.size = {SizeScale::Mm2, 16};
            changes.emplace_back(Place{
                Run{.id = std::string(charger_id) + "-" + post, .cores = {core}, .length_m = 0.5}});
        }
        return changes;
    }

    /// The joint of the loop with the greatest resistance; of equal ones the last on the way out
    /// and back.
    void addJoint() {
        std::map<std::string, const Joint*> joints;
        Installation copy = m_installation; // joints are handed out to be changed
        for (Part& part : copy.parts)
            for (const auto& [name, joint] : installation::jointsOf(part))
                joints[name] = joint;
        for (Run& run : copy.runs)
            for (const auto& [name, joint] : installation::jointsOf(run))
                joints[name] = joint;
        const Element* worst = nullptr;
        for (const Element* element : loop())
            if (joints.contains(element->name) && element->closed &&
                (worst == nullptr || element->ohm >= worst->ohm))
                worst = element;
        if (worst == nullptr)
            return;
        const Joint& joint = *joints.at(worst->name);
        const auto entry = m_catalogues.joints.find(joint.kind);
        if (entry == m_catalogues.joints.end())
            return;
        Row row(HandleKind::Joint, worst->name);
        for (const auto& [condition, mohm] : entry->second)
            row.add(-mohm, term(condition), renewed(joint, worst->name, condition));
        const auto now = entry->second.find(joint.condition);
        const bool is_of_its_own =
            joint.resistance_mohm || joint.film_mohm > 0 || now == entry->second.end();
        const double drawn_mohm = is_of_its_own ? worst->ohm * 1e3 : now->second;
        const std::string text =
            is_of_its_own ? words("{} mΩ", text::fixed(drawn_mohm, 1)) : term(joint.condition);
        m_found.push_back(row.take(-drawn_mohm, text));
    }

    /// In that condition, whatever was measured or has grown on it.
    [[nodiscard]] static std::vector<Change>
    renewed(const Joint& joint, const std::string& name, const std::string& condition) {
        std::vector<Change> changes{set(name + ".condition", condition)};
        if (joint.film_mohm > 0)
            changes.push_back(set(name + ".film_mohm", 0.0));
        return changes;
    }

    void addWarmth() {
        const double drawn_c = m_installation.surroundings.ambient_c;
        Row row(HandleKind::Warmth, "");
        for (int celsius = -20; celsius <= 50; celsius += 10)
            row.add(celsius, degrees(celsius), surround(celsius));
        m_found.push_back(row.take(drawn_c, degrees(drawn_c)));
    }

    [[nodiscard]] static std::string degrees(double celsius) {
        return words("{} °C", text::figure(celsius));
    }

    /// A battery that was given a temperature of its own follows as well.
    [[nodiscard]] std::vector<Change> surround(double celsius) const {
        std::vector<Change> changes{set("surroundings.ambient_c", celsius)};
        for (const Part& part : m_installation.parts)
            if (const auto* battery = std::get_if<Battery>(&part.body);
                battery != nullptr && battery->temperature_c)
                changes.push_back(set(part.id + ".temperature_c", celsius));
        return changes;
    }

    static constexpr const char* charger_id = "what-if-charger";

    const Installation& m_installation;
    const Catalogues& m_catalogues;
    Network m_network;
    std::string m_battery;
    std::vector<Handle> m_found;
};

} // namespace

std::vector<Handle> findHandles(const Installation& installation, const Catalogues& catalogues) {
    return Finder(installation, catalogues).find();
}

std::vector<Change> changesOf(const std::vector<Handle>& handles) {
    std::vector<Change> changes;
    for (const Handle& handle : handles)
        for (const Change& change : handle.rungs[handle.at].changes)
            changes.push_back(change);
    return changes;
}

HandleKeys keysOf(HandleKind kind) {
    static constexpr std::array<HandleKeys, all_handles.size()> keys{
        HandleKeys{'Q', 'A'}, {'W', 'S'}, {'E', 'D'}, {'R', 'F'}, {'T', 'G'}, {'U', 'J'}};
    return keys.at(static_cast<std::size_t>(kind));
}

std::string nameOf(HandleKind kind) {
    switch (kind) {
    case HandleKind::Area:
        return words("Cable");
    case HandleKind::Length:
        return words("Run length, one way");
    case HandleKind::Charge:
        return words("Battery charge");
    case HandleKind::Charging:
        return words("Charger or engine");
    case HandleKind::Joint:
        return words("Worst joint");
    case HandleKind::Warmth:
        return words("Temperature");
    }
    return "";
}

} // namespace desk
} // namespace ebbline
