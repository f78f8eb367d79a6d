// SPDX-License-Identifier: MIT
// Which numbers the verdict hangs on most: each of a scene's and of its unit's a tenth larger.
#include "drawn.h"
#include "marked.h"
#include "runs.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

using namespace ebbline;

namespace {

/// One number, as it is and a tenth larger. Both stand for the scene; only an area's own first one
/// differs from it.
struct Number {
    std::string path;
    double value = 0;
    Installation before;
    Installation after;
};

struct Change10 {
    std::string path;
    double value = 0;
    std::optional<double> volts; ///< of the headroom; absent where no attempt takes place any more
};

bool isVaried(const installation::Key& key, const std::optional<Value>& value) {
    if (key.type != installation::ValueType::Number || !key.in_circuit || !key.choices.empty() ||
        key.whole || !value)
        return false;
    const double number = std::get<double>(*value);
    return number != 0 && number * 1.1 <= key.max; // a tenth of nothing is nothing
}

void addPartNumbers(const Installation& scene, std::vector<Number>& numbers) {
    for (std::size_t i = 0; i < scene.parts.size(); ++i)
        for (const installation::Key& key : installation::keys()) {
            if (key.kind != installation::kindOf(scene.parts[i]))
                continue;
            const auto value = installation::get(scene.parts[i], key);
            if (!isVaried(key, value))
                continue;
            Number number{.path = scene.parts[i].id + "." + std::string(key.name),
                          .value = std::get<double>(*value),
                          .before = scene,
                          .after = scene};
            installation::set(number.after.parts[i], key, number.value * 1.1);
            numbers.push_back(std::move(number));
        }
}

/// A fuse's cold element goes by its rating; stated, each of the two can be changed alone.
Installation withElements(Installation scene) {
    const auto& elements = file::embeddedModels().catalogues.fuses;
    for (Part& part : scene.parts)
        if (auto* fuse = std::get_if<Fuse>(&part.body); fuse != nullptr && !fuse->resistance_mohm)
            fuse->resistance_mohm = elements.at(fuse->style).at(fuse->rating_a);
    return scene;
}

double catalogueMohm(const Joint& joint) {
    return joint.resistance_mohm.value_or(
        file::embeddedModels().catalogues.joints.at(joint.kind).at(joint.condition));
}

void addJointNumbers(const Installation& scene, std::vector<Number>& numbers) {
    const auto add = [&](auto Installation::* things, std::size_t i) {
        Installation before = scene;
        for (const auto& named : installation::jointsOf((before.*things)[i])) {
            const double mohm = catalogueMohm(*named.joint);
            if (mohm == 0)
                continue;
            named.joint->resistance_mohm = 1.1 * mohm;
            numbers.push_back({.path = named.name + ".resistance_mohm",
                               .value = mohm,
                               .before = scene,
                               .after = before});
            named.joint->resistance_mohm = mohm;
        }
    };
    for (std::size_t i = 0; i < scene.parts.size(); ++i)
        add(&Installation::parts, i);
    for (std::size_t i = 0; i < scene.runs.size(); ++i)
        add(&Installation::runs, i);
}

double gaugeOf(double area_mm2) {
    // ASTM B258, the other way round: d = 0.127 * 92^((36 - n) / 39) mm.
    const double diameter_mm = std::sqrt(area_mm2 * 4 / std::acos(-1.0));
    return 36 - 39 * std::log(diameter_mm / 0.127) / std::log(92);
}

/// Sizes are those of a table; a tenth more copper is one of the formula's gauges between.
Installation withArea(Installation scene, std::size_t run, double area_mm2) {
    for (Core& core : scene.runs[run].cores)
        core.size = {SizeScale::Awg, gaugeOf(area_mm2)};
    return scene;
}

void addRunNumbers(const Installation& scene, std::vector<Number>& numbers) {
    for (std::size_t i = 0; i < scene.runs.size(); ++i) {
        const Run& run = scene.runs[i];
        Number length{
            .path = run.id + ".length_m", .value = run.length(), .before = scene, .after = scene};
        length.after.runs[i].length_m = 1.1 * length.value;
        numbers.push_back(std::move(length));
        const double area_mm2 = run.cores.front().size.value;
        numbers.push_back({.path = run.id + ".area_mm2",
                           .value = area_mm2,
                           .before = withArea(scene, i, area_mm2),
                           .after = withArea(scene, i, 1.1 * area_mm2)});
    }
}

std::vector<Number> numbersOf(const Installation& scene) {
    std::vector<Number> numbers;
    addPartNumbers(scene, numbers);
    addJointNumbers(scene, numbers);
    addRunNumbers(scene, numbers);
    Number ambient{.path = "surroundings.ambient_c",
                   .value = scene.surroundings.ambient_c,
                   .before = scene,
                   .after = scene};
    ambient.after.surroundings.ambient_c *= 1.1;
    numbers.push_back(std::move(ambient));
    return numbers;
}

/// Lowest filtered voltage held off, less the cut-out.
std::optional<double> headroomOf(const Start& start, Installation scene) {
    if (!start.sensed_lowest_v)
        return std::nullopt;
    return *start.sensed_lowest_v - drawn::unitOf(scene).cut_out_v;
}

std::vector<Change10> vary(const std::vector<Number>& numbers) {
    std::vector<runs::Wanted> wanted;
    for (const Number& number : numbers)
        for (const Installation& one : {number.before, number.after})
            if (wanted.empty() || one != wanted.front().installation)
                wanted.push_back(
                    {.installation = one, .settings = {.held_off = true, .attempts = 1}});
    const std::vector<Start> starts = runs::startsOf(wanted);
    const auto start_of = [&](const Installation& one) -> const Start& {
        const auto place = std::ranges::find(wanted, one, &runs::Wanted::installation);
        return starts[static_cast<std::size_t>(place - wanted.begin())];
    };
    std::vector<Change10> changes;
    for (const Number& number : numbers) {
        const auto before = headroomOf(start_of(number.before), number.before);
        const auto after = headroomOf(start_of(number.after), number.after);
        changes.push_back({.path = number.path, .value = number.value});
        if (before && after)
            changes.back().volts = *after - *before;
    }
    std::ranges::sort(changes, {}, [](const Change10& change) {
        return std::pair(-std::abs(change.volts.value_or(1e9)), change.path);
    });
    return changes;
}

/// What can only help or only harm, by the end of its path.
void checkSign(const Change10& change) {
    struct Known {
        const char* key;
        double sign;
    };
    constexpr double noise_v = 1e-3; // what final accuracy promises
    for (const auto& [key, sign] : {Known{".length_m", -1},
                                    Known{".area_mm2", +1},
                                    Known{".resistance_mohm", -1},
                                    Known{".holder_mohm", -1},
                                    Known{".rail_mohm", -1},
                                    Known{".charge_pct", +1},
                                    Known{".capacity_ah", +1},
                                    Known{".friction", -1},
                                    Known{".efficiency_pct", +1},
                                    Known{".displacement_cm3", -1},
                                    Known{".standby_w", -1},
                                    Known{".fan_w", -1},
                                    Known{".winding_ohm", -1},
                                    Known{".cut_out_v", -1},
                                    Known{".speed_rpm", -1},
                                    Known{".head_bar", -1}})
        if (change.path.ends_with(key)) {
            CAPTURE(change.path, change.volts.value_or(0));
            CHECK(sign * change.volts.value_or(0) > -noise_v);
        }
}

/// Without the last digits of a length that is a sum.
double rounded(double value) {
    return std::round(value * 1e9) / 1e9;
}

std::string tableOf(const std::string& scene, const std::vector<Change10>& changes) {
    constexpr std::size_t shown = 10;
    std::string rows =
        "| " + scene + " | value | a tenth more moves the headroom by |\n|---|---|---|\n";
    for (std::size_t i = 0; i < std::min(shown, changes.size()); ++i) {
        const Change10& change = changes[i];
        rows += "| `" + change.path + "` | " + text::number(rounded(change.value)) + " | " +
                (change.volts ? text::fixed(*change.volts * 1e3, 0) + " mV"
                              : std::string("no attempt any more")) +
                " |\n";
    }
    return rows;
}

} // namespace

TEST_CASE("the numbers the verdict hangs on most", "[published][sensitivity][slow]") {
    const bool both =
        std::getenv("EBBLINE_LONG") != nullptr || std::getenv("EBBLINE_WRITE") != nullptr;
    for (const std::string name : {"van-01", "quay-01"}) {
        if (name == "quay-01" && !both)
            break; // one of the two is enough in an ordinary check
        const std::vector<Number> numbers = numbersOf(withElements(drawn::scene(name + ".toml")));
        const std::vector<Change10> changes = vary(numbers);
        for (const Change10& change : changes)
            checkSign(change);
        constexpr std::size_t millivolts = 2;
        const std::string made = tableOf(name + ".toml", changes);
        const std::string kept = marked::section("tests/published.md", "sensitivity-" + name, made);
        CHECK(marked::withoutColumn(kept, millivolts) == marked::withoutColumn(made, millivolts));
    }
}
