// SPDX-License-Identifier: MIT
// The supply loop unrolled into columns of the gap chart.
#include "columns.h"

#include "names.h"

#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

constexpr double worth_naming_v = 0.02;
constexpr double worth_naming_share = 0.035;
constexpr double long_share = 0.08; // of all cable: from there on it gets a width of its own

class Unrolling {
public:
    explicit Unrolling(const Figures& figures) : m_figures(figures) {}

    [[nodiscard]] Columns unroll() {
        const std::vector<Column> out = columnsOf(m_figures.out, true);
        const std::vector<Column> back = columnsOf(m_figures.back, false);
        Columns columns;
        const std::vector<std::string> common = commonThings(out, back);
        columns.shared = !common.empty() || back.empty();
        if (columns.shared) {
            columns.out = merge(out, back, common);
        } else {
            columns.out = out;
            columns.back = back;
        }
        columns.out = gather(columns.out);
        columns.back = gather(columns.back);
        columns.out.insert(columns.out.begin(), batteryColumn());
        return columns;
    }

private:
    [[nodiscard]] const Installation& installation() const {
        return m_figures.network->installation;
    }

    [[nodiscard]] std::vector<Column> columnsOf(const std::vector<Station>& side, bool out) const {
        std::vector<Column> columns;
        for (const Station& station : side) {
            const Element& element = m_figures.elementOf(station);
            const Run* run = installation().findRun(element.part);
            const Part* part = installation().findPart(element.part);
            Column column{.id = element.part, .elements = {station.element}};
            (out ? column.out_v : column.back_v) = station.volts;
            column.avoidable_v = station.avoidable_v;
            if (element.kind == ElementKind::Conductor && run != nullptr) {
                column.kind = PortionKind::Cable;
                column.length_m = run->length();
                column.name = nameOf(*run);
            } else if (run != nullptr) {
                column.kind = PortionKind::Joint;
                column.id = element.name;
                column.name = nameOfJoint(installation(), element.name);
            } else if (part != nullptr) {
                column.name = nameOf(*part);
            }
            column.brief = briefly(column.name);
            if (column.kind == PortionKind::Joint)
                column.brief = nameOfJointAlone(installation(), column.id);
            if (!columns.empty() && columns.back().id == column.id)
                add(columns.back(), column, column.name);
            else
                columns.push_back(std::move(column));
        }
        return columns;
    }

    /// Runs and parts that both sides go through, in the same order from the battery on.
    [[nodiscard]] static std::vector<std::string> commonThings(const std::vector<Column>& out,
                                                               const std::vector<Column>& back) {
        std::vector<std::string> common;
        auto from = back.begin();
        for (const Column& column : out) {
            const auto same = std::find_if(
                from, back.end(), [&](const Column& other) { return other.id == column.id; });
            if (same == back.end())
                continue;
            common.push_back(column.id);
            from = std::next(same);
        }
        return common;
    }

    /// Both sides along one foot: what is on both sides stands in one column, anything else
    /// by itself, the plus side's first.
    [[nodiscard]] static std::vector<Column> merge(const std::vector<Column>& out,
                                                   const std::vector<Column>& back,
                                                   const std::vector<std::string>& common) {
        std::vector<Column> merged;
        auto one = out.begin();
        auto other = back.begin();
        const auto copy_until = [&](auto& from, auto end, const std::string& shared) {
            for (; from != end && from->id != shared; ++from)
                merged.push_back(*from);
        };
        for (const std::string& id : common) {
            copy_until(one, out.end(), id);
            copy_until(other, back.end(), id);
            Column both = *one++;
            both.back_v = other->back_v;
            both.avoidable_v += other->avoidable_v;
            both.elements.insert(
                both.elements.end(), other->elements.begin(), other->elements.end());
            ++other;
            merged.push_back(std::move(both));
        }
        merged.insert(merged.end(), one, out.end());
        merged.insert(merged.end(), other, back.end());
        return merged;
    }

    [[nodiscard]] bool standsAlone(const Column& column, double all_m) const {
        if (column.kind == PortionKind::Cable && column.length_m >= long_share * all_m)
            return true;
        return column.avoidable_v >= worth_naming_v ||
               column.volts() >= std::max(worth_naming_v, worth_naming_share * m_figures.lost());
    }

    [[nodiscard]] std::vector<Column> gather(const std::vector<Column>& columns) const {
        double all_m = 0;
        for (const Column& column : columns)
            all_m += column.length_m;
        std::vector<Column> gathered;
        bool open = false; // the last one takes more
        for (Column column : columns) {
            const bool alone = standsAlone(column, all_m);
            if (!alone)
                column.length_m = 0;
            if (alone || !open) {
                gathered.push_back(std::move(column));
            } else {
                add(gathered.back(), column, nameOfGroup(gathered.back(), column));
                if (column.kind == PortionKind::Device)
                    gathered.back().kind = PortionKind::Device;
            }
            open = !alone;
        }
        for (Column& column : gathered)
            column.thin = column.length_m == 0 && column.volts() < 0.01;
        return gathered;
    }

    static void add(Column& group, const Column& column, std::string name) {
        group.out_v += column.out_v;
        group.back_v += column.back_v;
        group.avoidable_v += column.avoidable_v;
        group.elements.insert(group.elements.end(), column.elements.begin(), column.elements.end());
        group.name = std::move(name);
        group.brief = briefly(group.name);
    }

    /// Small ones in one: called by the devices among them, else counted.
    static std::string nameOfGroup(const Column& group, const Column& column) {
        const bool named = group.kind == PortionKind::Device;
        if (column.kind == PortionKind::Device)
            return named ? group.name + ", " + column.name : column.name;
        return named ? group.name
                     : words("{} small losses", group.elements.size() + column.elements.size());
    }

    [[nodiscard]] Column batteryColumn() const {
        Column column{.name = words("inside the battery"),
                      .brief = words("battery"),
                      .kind = PortionKind::Battery};
        for (const Station& station : m_figures.battery) {
            column.id = m_figures.elementOf(station).part;
            column.elements.push_back(station.element);
            column.out_v += station.volts;
            column.avoidable_v += station.avoidable_v;
        }
        return column;
    }

    const Figures& m_figures;
};

double sumOf(const std::vector<Station>& stations, const std::vector<int>& elements) {
    double volts = 0;
    for (const Station& station : stations)
        if (std::ranges::find(elements, station.element) != elements.end())
            volts += station.volts;
    return volts;
}

/// Of the width of a narrow column.
double shareOf(const Column& column) {
    return column.thin ? 0.3 : 1;
}

void revalue(Column& column, const Figures& figures) {
    column.out_v = sumOf(figures.battery, column.elements) + sumOf(figures.out, column.elements);
    column.back_v = sumOf(figures.back, column.elements);
}

} // namespace

Columns findColumns(const Moment& moment, const Figures& figures) {
    const Start& start = moment.examination().start;
    const Figures telling = figuresAt(moment, start, tellingMoment(start));
    Columns columns = Unrolling(telling).unroll();
    for (auto* side : {&columns.out, &columns.back})
        for (Column& column : *side)
            revalue(column, figures);
    return columns;
}

std::string findCulpritColumn(const Figures& figures) {
    const std::vector<Portion> portions = findPortions(figures);
    const Portion* culprit = findCulprit(figures, portions);
    return culprit == nullptr ? "" : culprit->id;
}

void layOut(std::vector<Column>& columns, double left, double width, double narrow) {
    double all_m = 0;
    double narrow_count = 0;
    for (const Column& column : columns) {
        all_m += column.length_m;
        narrow_count += column.length_m > 0 ? 0 : shareOf(column);
    }
    // Narrow ones never take more than half of the width, unless there is nothing else.
    const double most = all_m > 0 ? width / 2 : width;
    const double each = all_m > 0 ? std::min(narrow, most / std::max(narrow_count, 1.0))
                                  : most / std::max(narrow_count, 1.0);
    const double per_m = all_m > 0 ? (width - each * narrow_count) / all_m : 0;
    double x = left;
    for (Column& column : columns) {
        column.x = x;
        column.width = column.length_m > 0 ? column.length_m * per_m : each * shareOf(column);
        x += column.width;
    }
}

} // namespace ebbline::drawing
