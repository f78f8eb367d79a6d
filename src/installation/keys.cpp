// SPDX-License-Identifier: MIT
// The one list of keys.
#include "fields.h"

#include <algorithm>

namespace ebbline::installation {
namespace {

using enum KeyClass;

// Gauges with an SAE minimum area; 0 is 1/0, -3 is 4/0.
constexpr std::array sae_choices{
    -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0};
constexpr std::array<std::string_view, 4> conditions{"new", "tired", "corroded", "loose"};

// Keys of things that are no part: read and changed by name in file and apply.
constexpr std::array other_keys{
    number("surroundings", "ambient_c", -40, 70, State, "air around cables and battery"),
    textual("joint", "kind", Drawn, "entry of the joints catalogue"),
    one(textual("joint", "condition", Quality, "new, tired, corroded or loose"), conditions),
    number("joint", "resistance_mohm", 0, 1e6, Quality, "default: by kind and condition"),
    number("joint", "film_mohm", 0, 1e6, Quality, "of a film at small currents; 0: clean metal"),
    number("joint", "film_v", 0.01, 5, Quality, "most that the film holds"),
    number("joint", "opens_per_min", 0, 600, Quality, "lets go by itself, on average; 0: never"),
    number("joint", "opens_ms", 2, 10000, Quality, "for how long each time"),
    whole(number("joint", "opens_seed", 0, 1e9, Quality, "of the chance that says when")),
    flag("joint", "connected", State, "false: taken off or fallen off"),
    number("panel-way", "resistance_mohm", 0.01, 10000, Quality, "closed switch and terminals"),
    flag("panel-way", "closed", State, "whether it conducts"),
    number("run", "length_m", 0.001, 500, Drawn, "one way; default: along route_m"),
    number("run", "spare_m", 0, 100, Drawn, "beyond the length of route_m"),
    number("run", "inductance_uh", 0.01, 10, Drawn, "of the pair, per metre; default: by laying"),
    number("run", "apart_mm", 0, 2000, Drawn, "between out and back; 0: laid together"),
    number("run", "over_metal_mm", 0, 2000, Drawn, "above the metal it returns by; 0: a pair"),
    number("run", "broken_pct", 0, 99, Quality, "of the strands"),
    number("run", "ambient_c", -40, 120, State, "air around it; default: as the surroundings"),
    number("run", "area_mm2", 0.1, 500, Drawn, "nominal cross-section"),
    whole(number("run", "awg", -3, 40, Drawn, "gauge; 1/0 is 0, 2/0 is -1")),
    one(number("run", "sae", -3, 18, Drawn, "gauge; 1/0 is 0, 2/0 is -1"), sae_choices),
    textual("run", "conductor", Drawn, "entry of the conductors catalogue"),
};

std::vector<Key> makeKeys() {
    std::vector<Key> all;
    for (const Field& field : fields())
        all.push_back(field.key);
    all.insert(all.end(), other_keys.begin(), other_keys.end());
    return all;
}

} // namespace

const std::vector<Field>& fields() {
    static const std::vector<Field> all = joined(
        {sourceFields(), protectionFields(), wiringFields(), consumerFields(), unitFields()});
    return all;
}

std::span<const Key> keys() {
    static const std::vector<Key> all = makeKeys();
    return all;
}

const Key* findKey(std::string_view kind, std::string_view name) {
    const auto place = std::ranges::find_if(
        keys(), [&](const Key& key) { return key.kind == kind && key.name == name; });
    return place == keys().end() ? nullptr : &*place;
}

} // namespace ebbline::installation
