// SPDX-License-Identifier: MIT
// Changes by chance, the same for the same seed; most of them can be made.
#pragma once

#include "ebbline/file.h"
#include "ebbline/installation.h"

#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace ebbline {

class RandomChanges {
public:
    explicit RandomChanges(std::uint64_t seed) : m_random(seed) {}

    Change next(const Installation& scene) {
        const std::size_t chance = upTo(100);
        if (const auto joints = jointNames(scene); chance < 8 && !joints.empty())
            return Open{pick(joints)};
        if (chance < 13)
            return Bridge{terminal(scene), terminal(scene)};
        if (chance < 24)
            return chance % 2 == 0 ? Place{part(scene)} : Place{run(scene)};
        if (chance < 32)
            return Remove{anyId(scene)};
        return set(scene);
    }

    /// A key of anything or of a group, and mostly a value that it may have.
    Set set(const Installation& scene) {
        const std::string owner = pick(owners(scene));
        const std::string kind = installation::findKind(scene, owner).value();
        std::vector<const installation::Key*> keys;
        for (const installation::Key& key : installation::keys())
            if (key.kind == kind || (kind == "panel" && key.kind == "panel-way"))
                keys.push_back(&key);
        if (keys.empty())
            return set(scene); // a splice has only its joint
        const installation::Key& key = *pick(keys);
        return {owner + "." + std::string(key.name), value(key)};
    }

    std::size_t upTo(std::size_t count) {
        return std::uniform_int_distribution<std::size_t>(0, count - 1)(m_random);
    }

    template <class Thing>
    Thing pick(const std::vector<Thing>& things) {
        return things[upTo(things.size())];
    }

    /// Letters that a file has to escape, and some of several bytes.
    std::string words() {
        static const std::vector<std::string> pieces{"Möwe",
                                                     " ",
                                                     "\"",
                                                     "'",
                                                     "\\",
                                                     "\t",
                                                     "\n",
                                                     "\r",
                                                     "冷",
                                                     "a",
                                                     "#",
                                                     "\x7F",
                                                     "\x01",
                                                     "=",
                                                     "\"\"\"",
                                                     "🐟",
                                                     "[[part]]",
                                                     "\\u0041",
                                                     "}"};
        std::string out;
        for (std::size_t left = upTo(8); left > 0; --left)
            out += pick(pieces);
        return out;
    }

    Part part(const Installation& scene) {
        Part made{.id = "new-" + std::to_string(upTo(1000)), .name = words(), .note = words()};
        const auto kinds = installation::kinds();
        made.body = installation::makeBody(kinds[upTo(kinds.size())]).value();
        if (upTo(2) == 0)
            made.at_m = Position{0.1 * number(-9, 9), number(-5, 5)};
        for (const installation::Key& key : installation::keys())
            if (key.kind == installation::kindOf(made) && upTo(4) == 0)
                if (const Value some = value(key); !installation::findMisfit(key, some, key.name))
                    installation::set(made, key, some);
        for (const auto& named : installation::jointsOf(made))
            *named.joint = joint();
        if (auto* bond = std::get_if<Bond>(&made.body))
            bond->to = chassis(scene);
        if (auto* meter = std::get_if<Meter>(&made.body))
            *meter = {.plus = terminal(scene), .minus = terminal(scene)};
        if (auto* panel = std::get_if<Panel>(&made.body))
            for (PanelWay& way : panel->ways)
                way = {.resistance_mohm = upTo(3) == 0 ? 2 : 1.5, .closed = upTo(3) != 0};
        return made;
    }

    Run run(const Installation& scene) {
        static const std::vector<double> areas{1, 1.5, 2.5, 4, 6, 10};
        Run made{.id = "new-" + std::to_string(upTo(1000)), .name = words()};
        const auto scale = static_cast<SizeScale>(upTo(3));
        for (std::size_t i = 1 + upTo(3); i > 0; --i)
            made.cores.push_back(
                {.from = terminal(scene),
                 .to = terminal(scene),
                 .size = {scale, scale == SizeScale::Mm2 ? pick(areas) : number(-2, 0) * 1.0},
                 .joint_from = joint(),
                 .joint_to = joint()});
        for (Core& core : made.cores)
            core.size.value = scale == SizeScale::Mm2 ? core.size.value : 12 - 2 * number(0, 7);
        if (upTo(2) == 0)
            made.length_m = 0.25 * number(1, 40);
        else
            made.route_m = {{0, 0}, {number(1, 9), 0.1}, {3, number(-9, 9)}};
        made.spare_m = upTo(3) == 0 ? 0.3 : 0;
        return made;
    }

private:
    double number(int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(m_random);
    }

    static const Catalogues& catalogues() { return file::embeddedModels().catalogues; }

    template <class Map>
    std::string nameOf(const Map& map) {
        std::vector<std::string> names;
        for (const auto& [name, entry] : map)
            names.push_back(name);
        return pick(names);
    }

    Joint joint() {
        static const std::vector<std::string> conditions{"new", "new", "tired", "corroded"};
        Joint made{.kind = nameOf(catalogues().joints), .condition = pick(conditions)};
        if (upTo(4) == 0)
            made.resistance_mohm = std::ldexp(number(1, 1000), -7);
        made.connected = upTo(6) != 0;
        return made;
    }

    Value value(const installation::Key& key) {
        static const std::vector<double> areas{0.75, 1, 1.5, 2.5, 4, 6, 10, 16};
        static const std::vector<double> ratings{5, 7.5, 10, 15, 20, 30};
        if (upTo(40) == 0)
            return words(); // misfits, mostly
        if (key.type == installation::ValueType::Flag)
            return upTo(2) == 0;
        if (key.type == installation::ValueType::Text)
            return text(key);
        if (!key.choices.empty())
            return key.choices[upTo(key.choices.size())];
        if (key.name == "area_mm2")
            return pick(areas);
        if (key.name == "rating_a")
            return pick(ratings);
        const double some = std::uniform_real_distribution<double>(
            key.min, upTo(50) == 0 ? 2 * key.max : key.max)(m_random);
        return key.whole ? std::round(some) : upTo(2) == 0 ? std::round(some * 8) / 8 : some;
    }

    std::string text(const installation::Key& key) {
        if (!key.words.empty())
            return std::string(key.words[upTo(key.words.size())]);
        if (key.name == "conductor")
            return nameOf(catalogues().conductors);
        if (key.name == "material")
            return nameOf(catalogues().chassis);
        return key.name == "kind" ? nameOf(catalogues().joints) : "wet-lead";
    }

    static std::vector<std::string> jointNames(const Installation& scene) {
        std::vector<std::string> names;
        const auto add = [&](auto thing) {
            for (const auto& named : installation::jointsOf(thing))
                names.push_back(named.name);
        };
        for (const Part& part : scene.parts)
            add(part);
        for (const Run& run : scene.runs)
            add(run);
        return names;
    }

    static std::vector<std::string> owners(const Installation& scene) {
        std::vector<std::string> names = jointNames(scene);
        for (const char* group : {"joints", "runs", "batteries", "surroundings"})
            names.emplace_back(group);
        for (const Part& part : scene.parts) {
            names.push_back(part.id);
            if (const auto* panel = std::get_if<Panel>(&part.body))
                for (std::size_t i = 1; i <= panel->ways.size(); ++i)
                    names.push_back(part.id + "." + std::to_string(i));
        }
        for (const Run& run : scene.runs)
            for (std::size_t i = 0; i < run.cores.size(); ++i)
                names.insert(names.end(), {run.id, run.coreName(i)});
        return names;
    }

    Terminal terminal(const Installation& scene) {
        for (;;) {
            const Part& part = scene.parts[upTo(scene.parts.size())];
            const auto names = installation::terminalsOf(part);
            if (!names.empty())
                return {part.id, names[upTo(names.size())]};
        }
    }

    std::string anyId(const Installation& scene) {
        const std::size_t i = upTo(scene.parts.size() + scene.runs.size());
        return i < scene.parts.size() ? scene.parts[i].id : scene.runs[i - scene.parts.size()].id;
    }

    static std::string chassis(const Installation& scene) {
        for (const Part& part : scene.parts)
            if (std::holds_alternative<Chassis>(part.body))
                return part.id;
        return "none";
    }

    std::mt19937_64 m_random;
};

} // namespace ebbline
