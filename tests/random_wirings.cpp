// SPDX-License-Identifier: MIT
// Whole installations drawn by chance as people wire them: every kind of part, faults and events.
#include "random_wirings.h"

#include "ebbline/file.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace ebbline::random_wirings {
namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

class Wiring {
public:
    explicit Wiring(std::uint64_t seed) : m_random(seed) {
        m_scene.title = "drawn by chance " + std::to_string(seed);
        m_scene.subject = "fridge";
    }

    Installation draw() {
        m_scene.nominal_v = chance(20) ? 24 : 12;
        m_scene.surroundings.ambient_c = between(-15, 45);
        Terminal plus = addBatteries();
        Terminal minus{"house", "minus"};
        plus = addMainProtection(plus);
        addCharger(plus, minus);
        if (chance(35))
            minus = through("neg", BusBar{.studs = 6}, "1", "2", minus);
        plus = addDistribution(plus, minus);
        addFridge(plus, minus);
        addThermostat();
        addMeter();
        stackLugs();
        addFaults();
        addEvents();
        return std::move(m_scene);
    }

private:
    std::uint64_t below(std::uint64_t count) { return m_random() % count; }
    bool chance(std::uint64_t percent) { return below(100) < percent; }
    /// One of 1001 values, ends included.
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(below(1001)) / 1000;
    }
    /// The same by ratio: as many between 1 and 2 as between 10 and 20.
    double ratioBetween(double low, double high) {
        return std::round(low * std::pow(high / low, between(0, 1)) * 1e4) / 1e4;
    }
    template <class Thing>
    Thing of(const std::vector<Thing>& things) {
        return things[below(things.size())];
    }
    template <class Map>
    std::string nameOf(const Map& map) {
        auto entry = map.begin();
        std::advance(entry, static_cast<std::ptrdiff_t>(below(map.size())));
        return entry->first;
    }

    // --- Parts and runs

    void add(const std::string& id, Body body) {
        m_scene.parts.push_back({.id = id, .body = std::move(body)});
    }

    Joint joint(std::string kind) {
        Joint made{.kind = std::move(kind)};
        const std::uint64_t luck = below(100);
        made.condition = luck < 80 ? "new" : luck < 92 ? "tired" : luck < 97 ? "corroded" : "loose";
        if (chance(5))
            made.resistance_mohm = ratioBetween(0.1, 200);
        return made;
    }

    /// A size in one of the three scales, and a class that has it.
    void drawSize(Core& core, bool is_thick) {
        core.conductor = nameOf(catalogues().conductors);
        switch (below(8)) {
        case 0:
            core.size = {SizeScale::Awg,
                         is_thick ? of<double>({0, 2, 4, 6}) : of<double>({8, 10, 12, 14, 16})};
            break;
        case 1:
            core.size = {SizeScale::Sae,
                         is_thick ? of<double>({0, 2, 4, 6}) : of<double>({8, 10, 12, 14, 16})};
            break;
        default:
            core.size = {SizeScale::Mm2,
                         is_thick ? of<double>({10, 16, 25}) : of<double>({1, 1.5, 2.5, 4, 6})};
        }
    }

    Run& connect(const std::vector<std::pair<Terminal, Terminal>>& ways,
                 double length_m,
                 bool is_thick) {
        Run run{.id = "run-" + std::to_string(m_scene.runs.size() + 1), .length_m = length_m};
        Core size;
        drawSize(size, is_thick);
        for (const auto& [from, to] : ways) {
            Core core = size;
            core.from = from;
            core.to = to;
            core.joint_from = joint(of<std::string>({"crimp", "ring", "screw"}));
            core.joint_to = joint(of<std::string>({"crimp", "ring", "screw", "push-on", "none"}));
            run.cores.push_back(core);
        }
        if (chance(20))
            run.apart_mm = between(10, 300);
        if (chance(10))
            run.inductance_uh = between(0.2, 2);
        if (chance(5))
            run.broken_pct = between(5, 80);
        if (chance(10))
            run.ambient_c = between(0, 70);
        m_scene.runs.push_back(std::move(run));
        return m_scene.runs.back();
    }

    /// A part in the way: a run leads to it, what follows leaves from its other side.
    Terminal through(const std::string& id,
                     Body body,
                     const char* in,
                     const char* out,
                     const Terminal& from,
                     double length_m = 0.3) {
        add(id, std::move(body));
        connect({{from, {id, in}}}, length_m, true);
        return {id, out};
    }

    // --- From the battery on

    Battery battery() {
        Battery made{.chemistry = nameOf(catalogues().chemistries),
                     .nominal_v = m_scene.nominal_v,
                     .capacity_ah = ratioBetween(40, 400),
                     .charge_pct = between(5, 100)};
        if (chance(30))
            made.age_pct = between(0, 100);
        if (chance(4))
            made.dead_cells = 1;
        if (chance(20))
            made.temperature_c = between(-20, 45);
        return made;
    }

    Terminal addBatteries() {
        add("house", battery());
        if (chance(15)) {
            Battery second = battery();
            second.chemistry = std::get<Battery>(m_scene.parts.front().body).chemistry;
            add("second", second);
            connect({{{"house", "plus"}, {"second", "plus"}}}, between(0.2, 1), true);
            connect({{{"house", "minus"}, {"second", "minus"}}}, between(0.2, 1), true);
        }
        return {"house", "plus"};
    }

    double rating() { return of<double>({10, 15, 15, 20, 25, 30}); }

    Terminal addMainProtection(Terminal from) {
        if (chance(60))
            from = through("main-switch",
                           Isolator{.resistance_mohm = ratioBetween(0.2, 5)},
                           "line",
                           "load",
                           from,
                           between(0.1, 1));
        const bool has_breaker = chance(25);
        if (has_breaker)
            return through("main-breaker", Breaker{.rating_a = rating()}, "line", "load", from);
        return through("main-fuse",
                       Fuse{.rating_a = rating(), .holder_mohm = ratioBetween(0.5, 10)},
                       "line",
                       "load",
                       from);
    }

    void addCharger(const Terminal& plus, const Terminal& minus) {
        if (!chance(25))
            return;
        add("mains-charger",
            Charger{.voltage_v = m_scene.nominal_v / 12 * between(13.2, 14.6),
                    .current_a = ratioBetween(2, 60),
                    .on = chance(70)});
        const bool at_battery = chance(60);
        connect({{at_battery ? Terminal{"house", "plus"} : plus, {"mains-charger", "plus"}},
                 {minus, {"mains-charger", "minus"}}},
                between(0.5, 5),
                false);
    }

    Load load() {
        const double scale = m_scene.nominal_v / 12;
        Load made{.law = of<std::string>({"resistance", "current", "power"}),
                  .resistance_ohm = scale * scale * ratioBetween(1, 50),
                  .current_a = ratioBetween(0.2, 15) / scale,
                  .power_w = ratioBetween(2, 150),
                  .on = chance(50)};
        if (chance(30)) {
            made.start_times = between(1, 8);
            made.start_s = ratioBetween(0.02, 2);
        }
        if (chance(50))
            made.capacitor_uf = ratioBetween(10, 5000);
        return made;
    }

    /// A panel with loads on its ways, a bus bar, a stack of lugs on a stud, or nothing.
    Terminal addDistribution(const Terminal& from, const Terminal& minus) {
        switch (below(4)) {
        case 0:
            return addPanel(from, minus);
        case 1: {
            Terminal bar = through("plus-bar", BusBar{.studs = 6}, "1", "2", from, between(0.3, 4));
            for (std::uint64_t count = below(3); count > 0; --count)
                addLoad({"plus-bar", std::to_string(2 + count)}, minus);
            return bar;
        }
        case 2:
            return addStud(from, minus);
        default:
            return from;
        }
    }

    void addLoad(const Terminal& plus, const Terminal& minus) {
        const std::string id = "load-" + std::to_string(m_scene.parts.size());
        add(id, load());
        connect({{plus, {id, "plus"}}, {minus, {id, "minus"}}}, between(0.3, 8), false);
    }

    Terminal addPanel(const Terminal& from, const Terminal& minus) {
        Panel panel;
        for (PanelWay& way : panel.ways)
            way = {.resistance_mohm = ratioBetween(0.5, 10), .closed = chance(85)};
        Terminal first = through("board", panel, "feed", "1", from, between(0.3, 4));
        for (std::uint64_t count = below(3); count > 0; --count)
            addLoad({"board", std::to_string(1 + count)}, minus);
        return first;
    }

    /// Lugs on a post: the feed's, perhaps a load's, the fridge's on top.
    Terminal addStud(const Terminal& from, const Terminal& minus) {
        const double face_mohm = ratioBetween(0.05, 5);
        Terminal post =
            through("bolt", Stud{.face_mohm = face_mohm}, "post", "post", from, between(0.3, 3));
        if (chance(60))
            addLoad(post, minus);
        return post;
    }

    /// Every run end at the bolt has its place in the stack.
    void stackLugs() {
        const auto bolt = std::ranges::find(m_scene.parts, "bolt", &Part::id);
        if (bolt == m_scene.parts.end())
            return;
        auto& stack = std::get<Stud>(bolt->body).stack;
        for (const Run& run : m_scene.runs)
            for (std::size_t core = 0; core < run.cores.size(); ++core)
                for (const auto& [end, terminal] :
                     {std::pair("from", run.cores[core].from), std::pair("to", run.cores[core].to)})
                    if (terminal.part == "bolt")
                        stack.push_back({run.id, run.endName(core, end).substr(run.id.size() + 1)});
    }

    // --- To the fridge

    Controller unit() {
        Controller made;
        if (chance(30))
            made.nominal_v = m_scene.nominal_v;
        made.current_limit_a = chance(10) ? between(3, 8) : between(12, 25);
        made.capacitor_uf = ratioBetween(470, 4700);
        made.esr_mohm = between(10, 60);
        made.filter_s = ratioBetween(0.002, 0.1);
        made.spin_up_s = between(0.3, 2);
        made.build_s = between(2, 8); // quicker than most, so that an attempt ends sooner
        made.pressure_pct = chance(25) ? between(0, 100) : 0;
        made.friction = ratioBetween(0.01, 0.05);
        return made;
    }

    void addFridge(Terminal plus, const Terminal& minus) {
        add("fridge", unit());
        if (chance(50))
            plus = through(
                "fridge-fuse", Fuse{.rating_a = rating()}, "line", "load", plus, between(0.1, 1));
        const double length_m = ratioBetween(0.8, 14);
        switch (below(5)) {
        case 0:
            returnByMetal(plus, minus, length_m);
            return;
        case 1:
            add("socket",
                Plug{.plus = joint("plug-contact"),
                     .minus = joint("plug-contact"),
                     .mated = chance(97)});
            connect(
                {{plus, {"socket", "in-plus"}}, {minus, {"socket", "in-minus"}}}, length_m, false);
            connect({{{"socket", "out-plus"}, {"fridge", "plus"}},
                     {{"socket", "out-minus"}, {"fridge", "minus"}}},
                    between(0.3, 1.5),
                    false);
            return;
        case 2:
            add("sleeve", Splice{.sleeve = joint("sleeve")});
            connect({{plus, {"sleeve", "line"}}}, length_m / 2, false);
            connect({{{"sleeve", "load"}, {"fridge", "plus"}}}, length_m / 2, false);
            connect({{minus, {"fridge", "minus"}}}, length_m, false);
            return;
        case 3:
            if (chance(30)) {
                add("leads",
                    BenchLeads{.length_m = between(0.5, 5), .area_mm2 = of<double>({1.5, 2.5, 4})});
                connect(
                    {{plus, {"leads", "from-plus"}}, {minus, {"leads", "from-minus"}}}, 0.3, false);
                connect({{{"leads", "to-plus"}, {"fridge", "plus"}},
                         {{"leads", "to-minus"}, {"fridge", "minus"}}},
                        0.3,
                        false);
                return;
            }
            [[fallthrough]];
        default:
            connect({{plus, {"fridge", "plus"}}, {minus, {"fridge", "minus"}}}, length_m, false);
        }
    }

    void returnByMetal(const Terminal& plus, const Terminal& minus, double length_m) {
        add("body", Chassis{.material = nameOf(catalogues().chassis)});
        add("front-bond", Bond{.to = "body", .lug = joint("bond")});
        add("rear-bond", Bond{.to = "body", .lug = joint("bond")});
        connect({{minus, {"front-bond", "lug"}}}, between(0.2, 1), true);
        Run& out = connect({{plus, {"fridge", "plus"}}}, length_m, false);
        if (chance(70)) {
            out.apart_mm = 0;
            out.over_metal_mm = between(5, 100);
        }
        connect({{{"fridge", "minus"}, {"rear-bond", "lug"}}}, between(0.2, 1.5), false);
        if (!chance(30))
            return;
        add("other-bond",
            Bond{.to = "body", .lug = joint("bond")}); // a load that returns there too
        addLoad(plus, {"other-bond", "lug"});
    }

    void addThermostat() {
        if (!chance(35))
            return;
        add("stat", Thermostat{.resistance_mohm = ratioBetween(5, 5000), .closed = chance(85)});
        connect(
            {{{"fridge", "call"}, {"stat", "load"}}, {{"stat", "line"}, {"fridge", "call-return"}}},
            between(0.3, 2),
            false);
    }

    void addMeter() {
        if (chance(25))
            add("voltmeter", Meter{.plus = {"fridge", "plus"}, .minus = {"house", "minus"}});
    }

    // --- What is wrong, and what happens

    std::vector<std::string> ownersOf(const std::string& kind) {
        std::vector<std::string> owners;
        for (Part& part : m_scene.parts) {
            if (installation::kindOf(part) == kind)
                owners.push_back(part.id);
            if (kind == "joint")
                for (const auto& named : installation::jointsOf(part))
                    owners.push_back(named.name);
            if (const auto* panel = std::get_if<Panel>(&part.body);
                kind == "panel-way" && panel != nullptr)
                owners.push_back(part.id + ".1");
        }
        for (Run& run : m_scene.runs) {
            if (kind == "run")
                owners.push_back(run.id);
            if (kind == "joint")
                for (const auto& named : installation::jointsOf(run))
                    owners.push_back(named.name);
        }
        return owners;
    }

    void addFaults() {
        for (std::uint64_t i = chance(45) ? 1 + below(2) : 0; i > 0; --i) {
            const std::string kind = nameOf(catalogues().faults);
            const FaultKind& fault = catalogues().faults.at(kind);
            const std::vector<std::string> owners = ownersOf(fault.of);
            if (owners.empty())
                continue;
            Fault made{.on = of(owners), .kind = kind};
            for (const auto& [key, value] : fault.set)
                made.set.push_back({made.on + "." + key, value});
            m_scene.faults.push_back(std::move(made));
        }
    }

    /// Everything that can be switched or pulled apart while it runs.
    std::vector<std::string> switches() {
        std::vector<std::string> paths;
        for (const auto& [kind, key] : {std::pair("isolator", "closed"),
                                        std::pair("load", "on"),
                                        std::pair("charger", "on"),
                                        std::pair("thermostat", "closed"),
                                        std::pair("plug", "mated"),
                                        std::pair("panel-way", "closed")})
            for (const std::string& owner : ownersOf(kind))
                paths.push_back(owner + "." + key);
        paths.push_back(of(ownersOf("joint")) + ".connected");
        return paths;
    }

    void addEvents() {
        if (!chance(45))
            return;
        for (std::uint64_t i = 1 + below(3); i > 0; --i)
            m_scene.events.push_back({.at_s = static_cast<double>(below(800)) / 100,
                                      .set = {{of(switches()), chance(50)}}});
        std::ranges::sort(m_scene.events, {}, &Event::at_s);
    }

    std::mt19937_64 m_random;
    Installation m_scene;
};

} // namespace

Installation draw(std::uint64_t seed) {
    return Wiring(seed).draw();
}

} // namespace ebbline::random_wirings
