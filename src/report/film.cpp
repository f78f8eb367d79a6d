// SPDX-License-Identifier: MIT
// The three pictures of a start at many moments, for a page to play.
#include "film.h"

#include "objects.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::report {
namespace {

constexpr std::size_t moments = 110; // of about 75 ms each

using Draw = Drawing (*)(const Moment&, const View&);
constexpr std::array<Draw, 3> pictures{drawing::plan, drawing::gapChart, drawing::timeChart};
using Views = std::array<View, 3>;

// Pixels; the reader's screen stretches them. On the wide page plan lies above the other two.
const Views narrow_views{View{390, 330}, View{390, 340}, View{390, 300}};
const Views wide_views{View{960, 280}, View{548, 270}, View{404, 270}};
const Views paper_views{View{680, 285}, View{680, 275}, View{680, 245}};

Stills drawStills(const Moment& moment, const Views& views) {
    Stills stills;
    for (std::size_t i = 0; i < pictures.size(); ++i)
        stills[i] = drawing::writeSvg(pictures[i](moment, views[i]));
    return stills;
}

/// The lines of a gap chart as a thin outline: what stands between the head and the foot of an SVG.
std::string drawOutline(const Moment& worst, const View& view) {
    Drawing gap = drawing::gapChart(worst, view);
    std::erase_if(gap.groups, [](const Group& group) { return group.role != "gap-line"; });
    for (Group& group : gap.groups) {
        group.role = "outline";
        for (auto& item : group.items)
            if (auto* shape = std::get_if<Shape>(&item)) {
                shape->edge = Ink::Warning;
                shape->width *= 0.5;
            }
    }
    const std::string svg = drawing::writeSvg(gap);
    const std::size_t begin = svg.find("<g ");
    return begin == std::string::npos ? "" : svg.substr(begin, svg.rfind("</svg>") - begin);
}

Film shoot(const Inquiry& inquiry, const Instants& instants, const Views& views) {
    std::array<std::vector<std::string>, 3> frames;
    for (const double at_s : instants.at_s) {
        Stills stills = drawStills({inquiry, at_s}, views);
        for (std::size_t i = 0; i < stills.size(); ++i)
            frames[i].push_back(std::move(stills[i]));
    }
    Film film;
    std::ranges::transform(frames, film.pictures.begin(), encode);
    film.outline = drawOutline({inquiry, instants.at_s[instants.worst]}, views[1]);
    return film;
}

std::string describe(const Moment& moment) {
    const Examination& examination = moment.examination();
    const Frame frame = start::frameAt(examination.start, moment.at_s);
    const auto subject = static_cast<std::size_t>(examination.network.subject());
    return words("{} s · {} · {} V and {} A at the fridge",
                 text::fixed(moment.at_s, 2),
                 drawing::activityAt(moment),
                 text::fixed(frame.controller_v, 2),
                 text::fixed(frame.amps[subject], 1));
}

Json toJson(const Film& film) {
    Json pictures_of = Json::array();
    for (const Reel& reel : film.pictures)
        pictures_of.push_back({{"lines", reel.lines}, {"edits", reel.edits}});
    return {{"pictures", pictures_of}, {"outline", film.outline}};
}

std::string cut(const std::string& name) {
    constexpr std::size_t longest = 200; // bytes; no picture has room for half as many letters
    std::size_t end = std::min(name.size(), longest);
    while (end > 0 && end < name.size() && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U)
        --end; // not within a letter
    return name.substr(0, end);
}

/// Within a script element nothing may look like a tag of that element or like a comment.
std::string asScriptData(const std::string& json) {
    std::string safe;
    for (std::size_t i = 0; i < json.size(); ++i) {
        const std::size_t letter = json.compare(i, 2, "</") == 0 ? i + 2 : i + 1;
        const bool is_risky = json[i] == '<' && letter < json.size() &&
                              (json[letter] == '!' || json[letter] == 's' || json[letter] == 'S');
        safe += is_risky ? std::string("\\u003c") : std::string(1, json[i]);
    }
    return safe;
}

} // namespace

Inquiry withShortNames(Inquiry inquiry) {
    Installation& installation = inquiry.examination.network.installation;
    installation.title = cut(installation.title);
    for (Part& part : installation.parts)
        part.name = cut(part.name);
    for (Run& run : installation.runs)
        run.name = cut(run.name);
    return inquiry;
}

Showing makeShowing(const Inquiry& whole) {
    const Inquiry inquiry = withShortNames(whole);
    const Start& start = inquiry.examination.start;
    const Moment worst{inquiry, drawing::tellingMoment(start)};
    Showing showing{.instants = chooseInstants(start, drawing::shownStretch(worst), moments)};
    for (const double at_s : showing.instants.at_s)
        showing.words.push_back(describe({inquiry, at_s}));
    showing.narrow = shoot(inquiry, showing.instants, narrow_views);
    showing.wide = shoot(inquiry, showing.instants, wide_views);
    showing.paper = drawStills(worst, paper_views);
    return showing;
}

std::string writeJson(const Showing& showing) {
    const Json object{{"at_s", showing.instants.at_s},
                      {"words", showing.words},
                      {"worst", showing.instants.worst},
                      {"stations", showing.instants.stations},
                      {"narrow", toJson(showing.narrow)},
                      {"wide", toJson(showing.wide)}};
    return asScriptData(object.dump(-1, ' ', false, Json::error_handler_t::replace));
}

} // namespace ebbline::report
