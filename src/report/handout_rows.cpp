// SPDX-License-Identifier: MIT
// The boxes of a handout: what lies at each number, and what a meter shows there.
#include "handout_rows.h"

#include "sheet.h"
#include "words.h"

#include "ebbline/network.h"
#include "ebbline/telling.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace ebbline::report {
namespace {

using text::fixed;

constexpr std::ptrdiff_t many_rows = 9; // of one side: then every row is lower
constexpr double lifted_v = -0.005;
constexpr double as_much_v = 0.001;
constexpr double worth_a_note_v = 0.02; // needless, in a joint
constexpr std::ptrdiff_t rows_of_all = 3;

/// No minus before nothing.
std::string volts(double value) {
    return fixed(std::abs(value) < 0.0005 ? 0 : value, 3);
}

std::string placeWords(const Installation& installation, const MeterPlace& place) {
    const std::string name = drawing::nameOfThing(installation, place.owner);
    switch (place.kind) {
    case PlaceKind::Battery:
        return sideWords(Side::Source);
    case PlaceKind::Conductor:
        return name;
    case PlaceKind::Device:
        return place.steps.size() > 1 ? words("{} with its joints", name) : name;
    case PlaceKind::Joint:
        break;
    }
    if (place.terminal.terminal == "plus")
        return words("joint at {} plus", name);
    if (place.terminal.terminal == "minus")
        return words("joint at {} minus", name);
    return words("joints at {}", name);
}

const std::string& firstElement(const NumberedLoop& loop, const MeterPlace& place) {
    return loop.network.elements[static_cast<std::size_t>(place.steps.front().element)].name;
}

/// Of a conductor of a run, from the table: mohm/m.
std::optional<double>
perMetre(const NumberedLoop& loop, const MeterPlace& place, const Catalogues& catalogues) {
    const Run* run = loop.network.installation.findRun(place.owner);
    if (place.kind != PlaceKind::Conductor || run == nullptr)
        return std::nullopt;
    for (std::size_t i = 0; i < run->cores.size(); ++i)
        if (run->coreName(i) == firstElement(loop, place))
            return network::conductorMohmPerM(
                run->cores[i].size, run->cores[i].conductor, catalogues);
    return std::nullopt;
}

std::string rounded(double value) {
    return text::figure(std::round(value * 1000) / 1000);
}

std::string givenNote(const NumberedLoop& loop, std::size_t i, const Catalogues& catalogues) {
    const auto mohm = perMetre(loop, loop.places[i], catalogues);
    return mohm ? words("{} mΩ per metre", rounded(*mohm)) : "";
}

const Loss* findLoss(const Inquiry& inquiry, const std::string& element) {
    const auto loss = std::ranges::find(inquiry.losses, element, &Loss::element);
    return loss == inquiry.losses.end() ? nullptr : &*loss;
}

/// The sum behind a conductor; of joints the one that loses most in vain.
std::string foundNote(const Inquiry& inquiry, const NumberedLoop& loop, std::size_t i) {
    const MeterPlace& place = loop.places[i];
    if (place.kind == PlaceKind::Conductor) {
        const Loss* loss = findLoss(inquiry, firstElement(loop, place));
        std::string sum = loss == nullptr ? "" : text::tidyUnits(loss->sum);
        text::replaceAll(sum, " x ", " × ");
        return sum;
    }
    const Loss* worst = nullptr;
    for (const Step& step : place.steps) {
        const Loss* loss =
            findLoss(inquiry, loop.network.elements[static_cast<std::size_t>(step.element)].name);
        if (loss != nullptr && loss->avoidable_v >= worth_a_note_v &&
            (worst == nullptr || loss->avoidable_v > worst->avoidable_v))
            worst = loss;
    }
    if (worst == nullptr || place.kind == PlaceKind::Battery)
        return "";
    return drawing::nameOfThing(inquiry.examination.network.installation, worst->element);
}

using Note = std::function<std::string(std::size_t)>;

Fields rowOf(const NumberedLoop& loop, std::size_t i, const std::string& note) {
    Fields row;
    row.set("number", std::to_string(i + 1));
    row.set("what", plain(placeWords(loop.network.installation, loop.places[i])));
    setText(row, "note", note);
    return row;
}

void addRows(const NumberedLoop& loop, const Note& note, const Readings* readings, Fields& page) {
    Fields plus = Fields::type::list;
    Fields minus = Fields::type::list;
    const std::vector<int> most = readings == nullptr ? std::vector<int>{} : findMost(*readings);
    for (std::size_t i = 0; i < loop.places.size(); ++i) {
        Fields row = rowOf(loop, i, note(i));
        row.set("value", readings == nullptr ? "" : volts(readings->lost_v[i]));
        row.set("is_most", Fields(std::ranges::count(most, static_cast<int>(i) + 1) > 0));
        (loop.places[i].on_plus_side ? plus : minus).push_back(row);
    }
    page.set("plus", plus);
    page.set("minus", minus);
    const auto out = std::ranges::count(loop.places, true, &MeterPlace::on_plus_side);
    const auto back = std::ssize(loop.places) - out + rows_of_all;
    page.set("many", Fields(std::max(out, back) > many_rows));
}

/// By the conductor that loses most, with what the sheet gives of it.
void addSum(const NumberedLoop& loop,
            const Readings& readings,
            const Catalogues& catalogues,
            Fields& page) {
    std::optional<std::size_t> most;
    for (std::size_t i = 0; i < loop.places.size(); ++i)
        if (perMetre(loop, loop.places[i], catalogues) &&
            (!most || readings.lost_v[i] > readings.lost_v[*most] + as_much_v))
            most = i;
    if (!most)
        return;
    const MeterPlace& place = loop.places[*most];
    const double length_m = loop.network.installation.findRun(place.owner)->length();
    const double mohm = *perMetre(loop, place, catalogues);
    page.set("sum_number", std::to_string(*most + 1));
    page.set("sum_length", rounded(length_m));
    page.set("sum_mohm", rounded(mohm));
    page.set("sum_amps", fixed(readings.amps[*most], 2));
    page.set("sum_volts", volts(length_m * mohm * 1e-3 * readings.amps[*most]));
}

} // namespace

void addPlaces(const NumberedLoop& loop, const Catalogues& catalogues, Fields& page) {
    addRows(loop, [&](std::size_t i) { return givenNote(loop, i, catalogues); }, nullptr, page);
}

void addReadings(const Inquiry& inquiry,
                 const NumberedLoop& loop,
                 const Catalogues& catalogues,
                 Fields& page) {
    const Readings readings = readPlaces(inquiry.examination, loop.network, loop.places);
    addRows(loop, [&](std::size_t i) { return foundNote(inquiry, loop, i); }, &readings, page);
    std::vector<std::string> most;
    for (const int number : findMost(readings))
        most.push_back(std::to_string(number));
    page.set("most", most.empty() ? words("nowhere") : listed(most));
    if (std::ranges::any_of(readings.lost_v, [](double lost_v) { return lost_v < lifted_v; }))
        page.set("lifted",
                 words("Where the loss has a minus, a charging source drives its current towards "
                       "the battery."));
    page.set("rest", volts(readings.rest_v));
    page.set("lost", volts(readings.lost()));
    page.set("fridge", volts(readings.fridge_v));
    page.set("amps", fixed(readings.fridge_a, 2));
    addSum(loop, readings, catalogues, page);
}

} // namespace ebbline::report
