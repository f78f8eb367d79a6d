// SPDX-License-Identifier: MIT
// Remedies to be tried, each as a row of steps from the smallest to the largest.
#include "candidates.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>

namespace ebbline::study {
namespace {

using enum RemedyKind;

constexpr double poor_ohm = 1e-3;      // beyond a new one; less is not worth a tool
constexpr double least_share = 0.1;    // of the loop, for a cable worth changing
constexpr std::size_t most_joints = 6; // tried one by one, the worst first
constexpr double least_step_m = 0.5;   // of shortening
constexpr double most_length_steps = 12;

RemedyStep step(std::vector<Change> changes, double value = 0) {
    return {.value = value, .changes = std::move(changes), .headroom_v = {}};
}

Change set(const std::string& path, Value value) {
    return Set{path, std::move(value)};
}

class Finder {
public:
    Finder(const Network& network, const Catalogues& catalogues, Outcome outcome)
        : m_network(network), m_installation(network.installation), m_catalogues(catalogues),
          m_outcome(outcome) {
        if (network.loop)
            for (const auto& way : {network.loop->out, network.loop->back})
                for (const Step& one : way)
                    m_loop.push_back(&network.elements[static_cast<std::size_t>(one.element)]);
    }

    std::vector<Candidate> find() {
        for (const Element* element : m_loop)
            addOpen(*element);
        if (m_outcome != Outcome::NotPowered && m_outcome != Outcome::Reversed &&
            m_outcome != Outcome::NotDriven) {
            addJoints();
            for (const Element* element : m_loop)
                addContact(*element);
            addBattery();
            addChargers();
            addLoads();
            addFuse();
            addCables();
            addDoubleVoltage();
        }
        if (m_outcome != Outcome::NotPowered && m_outcome != Outcome::Reversed)
            addUnit();
        return std::move(m_found);
    }

private:
    void add(RemedyKind kind, const std::string& on, std::vector<RemedyStep> steps) {
        if (!steps.empty())
            m_found.push_back(
                {{.kind = kind, .on = on, .cure = {}, .below = {}}, std::move(steps)});
    }

    template <class Body>
    const Body* bodyOf(const Element& element) const {
        const Part* part = m_installation.findPart(element.part);
        return part == nullptr ? nullptr : std::get_if<Body>(&part->body);
    }

    /// What keeps the loop from conducting at all, unless an event puts it right.
    void addOpen(const Element& element) {
        if (element.kind == ElementKind::Contact && !element.closed && element.switchings.empty()) {
            const auto kind = installation::findKind(m_installation, element.name);
            const char* key = kind == "joint" ? ".connected" : ".closed";
            std::vector<Change> changes{set(element.name + key, true)};
            if (bodyOf<Plug>(element) != nullptr)
                changes.push_back(set(element.part + ".mated", true));
            add(SwitchOn, element.name, {step(std::move(changes))});
        }
        if (const auto* fuse = bodyOf<Fuse>(element); fuse != nullptr && fuse->blown)
            add(RenewFuse, element.part, {step({set(element.part + ".blown", false)})});
        if (const auto* breaker = bodyOf<Breaker>(element); breaker != nullptr && breaker->tripped)
            add(RenewFuse, element.part, {step({set(element.part + ".tripped", false)})});
    }

    /// Kind of each joint by its path.
    [[nodiscard]] std::map<std::string, std::string> jointKinds() const {
        std::map<std::string, std::string> kinds;
        Installation copy = m_installation; // joints are handed out to be changed
        for (Part& part : copy.parts)
            for (const auto& [name, joint] : installation::jointsOf(part))
                kinds[name] = joint->kind;
        for (Run& run : copy.runs)
            for (const auto& [name, joint] : installation::jointsOf(run))
                kinds[name] = joint->kind;
        return kinds;
    }

    void addJoints() {
        std::vector<std::pair<double, std::string>> poor; // ohms beyond a new one
        const auto kinds = jointKinds();
        for (const Element* element : m_loop)
            if (const auto kind = kinds.find(element->name); kind != kinds.end())
                if (const auto entry = m_catalogues.joints.find(kind->second);
                    entry != m_catalogues.joints.end())
                    if (const double beyond_ohm = element->ohm - entry->second.at("new") * 1e-3;
                        beyond_ohm > poor_ohm)
                        poor.emplace_back(beyond_ohm, element->name);
        std::ranges::sort(poor, std::greater<>());
        std::vector<Change> all;
        all.reserve(poor.size());
        for (const auto& [beyond_ohm, name] : poor)
            all.push_back(set(name + ".condition", "new"));
        for (std::size_t i = 0; i < std::min(poor.size(), most_joints); ++i)
            add(RemakeJoint, poor[i].second, {step({all[i]})});
        if (poor.size() > 1)
            add(RemakeJoints, "", {step(std::move(all))});
    }

    void addContact(const Element& element) {
        const auto renew =
            [&](RemedyKind kind, const std::string& path, double mohm, double new_mohm) {
                if (mohm > new_mohm + poor_ohm * 1e3)
                    add(kind, element.name, {step({set(path, new_mohm)})});
            };
        if (const auto* isolator = bodyOf<Isolator>(element))
            renew(RenewContact,
                  element.part + ".resistance_mohm",
                  isolator->resistance_mohm,
                  Isolator{}.resistance_mohm);
        if (bodyOf<Panel>(element) != nullptr &&
            installation::findKind(m_installation, element.name) == "panel-way")
            renew(RenewContact,
                  element.name + ".resistance_mohm",
                  element.ohm * 1e3,
                  PanelWay{}.resistance_mohm);
        if (const auto* fuse = bodyOf<Fuse>(element))
            renew(
                RenewHolder, element.part + ".holder_mohm", fuse->holder_mohm, Fuse{}.holder_mohm);
        if (const auto* fuse = bodyOf<Fuse>(element); fuse != nullptr && fuse->age_pct > 0)
            add(RenewFuse, element.part, {step({set(element.part + ".age_pct", 0.0)})});
    }

    void addBattery() {
        if (!m_network.loop)
            return;
        const std::string& id =
            m_network.elements[static_cast<std::size_t>(m_network.loop->battery)].name;
        const auto& battery = std::get<Battery>(m_installation.findPart(id)->body);
        std::vector<RemedyStep> steps;
        for (const double pct : {50.0, 60.0, 70.0, 80.0, 90.0, 100.0})
            if (pct > battery.charge_pct)
                steps.push_back(step({set(id + ".charge_pct", pct)}, pct));
        add(ChargeBattery, id, std::move(steps));
        if (battery.age_pct > 0 || battery.dead_cells > 0)
            add(RenewBattery,
                id,
                {step({set(id + ".age_pct", 0.0),
                       set(id + ".dead_cells", 0.0),
                       set(id + ".charge_pct", 100.0)})});
    }

    void addChargers() {
        std::vector<Change> changes;
        for (const Part& part : m_installation.parts)
            if (const auto* charger = std::get_if<Charger>(&part.body);
                charger != nullptr && !charger->on)
                changes.push_back(set(part.id + ".on", true));
        if (!changes.empty())
            add(ChargerOn, "", {step(std::move(changes))});
    }

    /// Also of what events switch on: nothing is left that draws.
    void addLoads() {
        constexpr double next_to_nothing_ohm = 1e6;
        std::vector<Change> changes;
        for (const Element& element : m_network.elements) {
            if (element.kind != ElementKind::Load ||
                (!element.closed && element.switchings.empty()))
                continue;
            changes.push_back(set(element.part + ".power_w", 0.0));
            changes.push_back(set(element.part + ".current_a", 0.0));
            changes.push_back(set(element.part + ".resistance_ohm", next_to_nothing_ohm));
        }
        if (!changes.empty())
            add(OtherLoadsOff, "", {step(std::move(changes))});
    }

    void addFuse() {
        if (m_outcome != Outcome::FuseOpens)
            return;
        const Fuse* weakest = nullptr;
        std::string id;
        for (const Element* element : m_loop)
            if (const auto* fuse = bodyOf<Fuse>(*element);
                fuse != nullptr && (weakest == nullptr || fuse->rating_a < weakest->rating_a)) {
                weakest = fuse;
                id = element->part;
            }
        std::vector<RemedyStep> steps;
        const auto ratings =
            weakest == nullptr ? m_catalogues.fuses.end() : m_catalogues.fuses.find(weakest->style);
        if (ratings != m_catalogues.fuses.end())
            for (const auto& [rating_a, mohm] : ratings->second)
                if (rating_a > weakest->rating_a)
                    steps.push_back(step({set(id + ".rating_a", rating_a)}, rating_a));
        add(LargerFuse, id, std::move(steps));
    }

    /// Runs of the loop with broken strands.
    [[nodiscard]] std::vector<const Run*> damagedRuns() const {
        std::vector<const Run*> runs;
        for (const Element* element : m_loop)
            if (const Run* run = m_installation.findRun(element->part);
                run != nullptr && run->broken_pct > 0 && std::ranges::count(runs, run) == 0)
                runs.push_back(run);
        return runs;
    }

    /// Runs that hold a fair share of the loop's resistance, the largest first.
    [[nodiscard]] std::vector<const Run*> weakRuns() const {
        std::map<std::string, double> ohms;
        double whole_ohm = 0;
        for (const Element* element : m_loop) {
            whole_ohm += element->ohm;
            if (element->kind == ElementKind::Conductor)
                ohms[element->part] += element->ohm;
        }
        std::vector<std::pair<double, const Run*>> weak;
        for (const auto& [id, ohm] : ohms)
            if (const Run* run = m_installation.findRun(id);
                run != nullptr && ohm >= least_share * whole_ohm)
                weak.emplace_back(ohm, run);
        std::ranges::sort(weak, std::greater<>());
        std::vector<const Run*> runs;
        runs.reserve(weak.size());
        for (const auto& [ohm, run] : weak)
            runs.push_back(run);
        return runs;
    }

    void addCables() {
        for (const Run* run : damagedRuns())
            add(RenewCable, run->id, {step({set(run->id + ".broken_pct", 0.0)})});
        for (const Run* run : weakRuns()) {
            add(ThickerCable, run->id, thicker(*run));
            if (!m_found.empty() && m_found.back().remedy.kind == ThickerCable)
                m_found.back().remedy.scale = run->cores.front().size.scale;
            add(ShorterWay, run->id, shorter(*run));
        }
    }

    /// Sizes one can buy above the thinnest core's.
    [[nodiscard]] std::vector<RemedyStep> thicker(const Run& run) const {
        const Core& core = run.cores.front();
        std::vector<RemedyStep> steps;
        if (core.size.scale == SizeScale::Mm2) {
            const auto sizes = m_catalogues.conductors.find(core.conductor);
            if (sizes != m_catalogues.conductors.end())
                for (const auto& [area_mm2, mohm_per_m] : sizes->second)
                    if (area_mm2 > core.size.value)
                        steps.push_back(step({set(run.id + ".area_mm2", area_mm2)}, area_mm2));
            return steps;
        }
        const char* key = core.size.scale == SizeScale::Awg ? ".awg" : ".sae";
        for (const double gauge :
             {18.0, 16.0, 14.0, 12.0, 10.0, 8.0, 6.0, 4.0, 2.0, 1.0, 0.0, -1.0, -2.0, -3.0})
            if (gauge < core.size.value)
                steps.push_back(step({set(run.id + key, gauge)}, gauge));
        return steps;
    }

    [[nodiscard]] static std::vector<RemedyStep> shorter(const Run& run) {
        const double whole_m = run.length();
        const double step_m =
            std::max(least_step_m, std::ceil(2 * whole_m / most_length_steps) * least_step_m);
        std::vector<RemedyStep> steps;
        for (int count = static_cast<int>(std::ceil(whole_m / step_m)) - 1; count >= 1; --count)
            steps.push_back(step({set(run.id + ".length_m", count * step_m)}, count * step_m));
        return steps;
    }

    /// What of the fridge itself passes with time, and what is worse than its catalogue entry.
    void addUnit() {
        constexpr double cool_c = Controller{}.shell_c;
        const Part& part = *m_installation.findPart(m_installation.subject);
        const auto& unit = std::get<Controller>(part.body);
        std::vector<Change> rest;
        if (unit.pressure_pct > 0)
            rest.push_back(set(part.id + ".pressure_pct", 0.0));
        if (unit.shell_c > unit.shell_limit_c)
            rest.push_back(set(part.id + ".shell_c", std::min(cool_c, unit.shell_limit_c)));
        if (!rest.empty())
            add(LetRest, part.id, {step(std::move(rest))});
        if (std::vector<Change> mended = mending(part, unit); !mended.empty())
            add(MendUnit, part.id, {step(std::move(mended))});
    }

    [[nodiscard]] std::vector<Change> mending(const Part& part, const Controller& unit) const {
        struct Number {
            const char* key;
            double Controller::* member;
        };
        const auto kind = std::get<Controller>(installation::bareOf(part, m_catalogues).body);
        std::vector<Change> changes;
        for (const auto& [key, member] : {Number{"plug_mohm", &Controller::plug_mohm},
                                          Number{"shorted_pct", &Controller::shorted_pct},
                                          Number{"winding_ohm", &Controller::winding_ohm},
                                          Number{"friction", &Controller::friction},
                                          Number{"cut_out_v", &Controller::cut_out_v},
                                          Number{"cut_out_24_v", &Controller::cut_out_24_v}})
            if (unit.*member > kind.*member)
                changes.push_back(set(part.id + "." + key, kind.*member));
        if (unit.dead)
            changes.push_back(set(part.id + ".dead", false));
        return changes;
    }

    /// Where the unit takes either, and nothing else would be harmed.
    void addDoubleVoltage() {
        const auto& unit =
            std::get<Controller>(m_installation.findPart(m_installation.subject)->body);
        const bool is_alone = std::ranges::none_of(m_network.elements, [&](const Element& element) {
            return element.kind == ElementKind::Load || element.kind == ElementKind::Charger ||
                   (element.kind == ElementKind::Controller &&
                    element.part != m_installation.subject);
        });
        if (unit.nominal_v == 0 && m_installation.nominal_v == 12 && is_alone)
            add(DoubleVoltage, "", {step({set("batteries.nominal_v", 24.0)}, 24)});
    }

    const Network& m_network;
    const Installation& m_installation;
    const Catalogues& m_catalogues;
    Outcome m_outcome;
    std::vector<const Element*> m_loop;
    std::vector<Candidate> m_found;
};

} // namespace

std::vector<Candidate>
findCandidates(const Network& network, const Catalogues& catalogues, Outcome outcome) {
    return Finder(network, catalogues, outcome).find();
}

Installation withStep(const Installation& installation, RemedyKind kind, const RemedyStep& step) {
    Installation changed = installation::apply(installation, step.changes);
    if (kind == DoubleVoltage)
        changed.nominal_v = step.value; // the scene's own figure has no path
    return changed;
}

} // namespace ebbline::study
