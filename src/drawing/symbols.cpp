// SPDX-License-Identifier: MIT
// Parts on the plan: how large each is and where its terminals sit.
#include "symbols.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {

const Port* Symbol::findPort(const std::string& terminal) const {
    const auto place = std::ranges::find(ports, terminal, &Port::terminal);
    return place == ports.end() ? nullptr : &*place;
}

namespace {

struct Extent {
    Point operator()(const Battery&) const { return {5.0, 3.6}; }
    Point operator()(const Controller&) const { return {7.6, 6.2}; }
    Point operator()(const Charger&) const { return {4.2, 2.8}; }
    Point operator()(const Load&) const { return {3.4, 2.8}; }
    Point operator()(const Panel& panel) const {
        return {3.0, std::max(2.6, 1.5 * static_cast<double>(panel.ways.size()))};
    }
    Point operator()(const BusBar& bar) const { return {0.9, std::max(2.4, 1.3 * bar.studs)}; }
    Point operator()(const Stud&) const { return {1.2, 1.2}; }
    Point operator()(const Plug&) const { return {2.6, 2.4}; }
    Point operator()(const Bond&) const { return {1.8, 1.6}; }
    Point operator()(const BenchLeads&) const { return {4.0, 2.4}; }
    Point operator()(const Splice&) const { return {1.8, 0.9}; }
    Point operator()(const Chassis&) const { return {0, 0}; }
    Point operator()(const Meter&) const { return {0, 0}; }
    template <class Other>
    Point operator()(const Other&) const {
        return {3.4, 2.0}; // isolator, fuse, breaker, thermostat
    }
};

struct Groups {
    using All = std::vector<PortGroup>;
    All operator()(const Battery&) const { return {{{"plus", "minus"}}}; }
    All operator()(const Charger&) const { return {{{"plus", "minus"}}}; }
    All operator()(const Load&) const { return {{{"plus", "minus"}}}; }
    All operator()(const Controller&) const {
        return {{{"plus", "minus"}}, {{"call", "call-return", "lamp", "u", "v", "w"}}};
    }
    All operator()(const Panel& panel) const {
        PortGroup ways{.opposite = true};
        for (std::size_t i = 1; i <= panel.ways.size(); ++i)
            ways.terminals.push_back(std::to_string(i));
        return {{{"feed"}}, ways};
    }
    All operator()(const BusBar& bar) const {
        PortGroup left;
        PortGroup right{.opposite = true};
        for (int i = 1; i <= static_cast<int>(bar.studs); ++i)
            (i % 2 == 1 ? left : right).terminals.push_back(std::to_string(i));
        return {left, right};
    }
    All operator()(const Stud&) const { return {{{"post"}}}; }
    All operator()(const Bond&) const { return {{{"lug"}}}; }
    All operator()(const Plug&) const {
        return {{{"in-plus", "in-minus"}}, {{"out-plus", "out-minus"}, true}};
    }
    All operator()(const BenchLeads&) const {
        return {{{"from-plus", "from-minus"}}, {{"to-plus", "to-minus"}, true}};
    }
    All operator()(const Chassis&) const { return {}; }
    All operator()(const Meter&) const { return {}; }
    template <class Other>
    All operator()(const Other&) const {
        return {{{"line"}}, {{"load"}, true}};
    }
};

} // namespace

bool hasSymbol(const Part& part) {
    return extentOf(part).x > 0;
}
Point extentOf(const Part& part) {
    return std::visit(Extent{}, part.body);
}
double symbolScale(const Box& area, double unit) {
    return std::clamp(std::sqrt(area.width * area.height) / (42 * unit), 0.66, 1.0);
}
std::vector<PortGroup> portGroupsOf(const Part& part) {
    return std::visit(Groups{}, part.body);
}
bool isInline(const Part& part) {
    const std::vector<PortGroup> groups = portGroupsOf(part);
    return groups.size() == 2 && groups.back().opposite;
}

} // namespace ebbline::drawing
