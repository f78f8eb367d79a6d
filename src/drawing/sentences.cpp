// SPDX-License-Identifier: MIT
// What the pictures say in words.
#include "sentences.h"

#include "named.h"
#include "names.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

using text::fixed;

std::string verdictWords(const Examination& examination) {
    const Verdict& verdict = examination.verdict;
    switch (examination.start.outcome) {
    case Outcome::Starts:
        return verdict.margin == Margin::Clear
                   ? words("Starts, with {} to spare", volts(verdict.headroom_v.value_or(0)))
                   : words("Starts, but only just");
    case Outcome::Trips:
        return words("Does not start");
    case Outcome::Stalls:
        return words("Does not start: the compressor stalls");
    case Outcome::FuseOpens:
        return examination.start.reached_speed ? words("Starts, then the fuse opens")
                                               : words("Does not start: the fuse opens");
    case Outcome::NotPowered:
        return words("Does nothing: no voltage arrives");
    case Outcome::SupplyLow:
        return words("Does nothing: the supply stays below its cut-in");
    case Outcome::ThermostatOpen:
        return words("Does nothing: the thermostat never calls");
    case Outcome::Reversed:
        return words("Does nothing: plus and minus are exchanged");
    case Outcome::WrongVoltage:
        return words("Does nothing: this is not its voltage");
    case Outcome::NotDriven:
        return words("Does nothing: its own controller keeps it off");
    }
    return "";
}

/// The thing that the verdict blames, in two or three words; empty where it blames none.
std::string culpritWords(const Moment& moment) {
    const Installation& installation = moment.examination().network.installation;
    const std::string& element = moment.inquiry.headline.element;
    const std::string owner = element.substr(0, element.find('.'));
    if (findJoint(installation, element))
        return briefly(nameOfJoint(installation, element));
    if (installation.findRun(owner) != nullptr)
        return words("thin cable");
    const Part* part = installation.findPart(owner);
    if (part == nullptr)
        return "";
    if (std::holds_alternative<Battery>(part->body))
        return words("weak battery");
    return nameOf(*part);
}

/// The verdict's cause without what the heading says already.
std::string causeBeyondVerdict(const Moment& moment) {
    std::string cause = withNames(moment, moment.inquiry.headline.cause);
    const std::string said = verdictWords(moment.examination());
    if (!cause.starts_with(said))
        return cause;
    const std::string rest = cause.substr(said.size());
    const std::size_t begin = rest.find_first_not_of(" ;,.:");
    const bool is_sentence = rest.starts_with(";") || rest.starts_with(".");
    return is_sentence && begin != std::string::npos ? capital(rest.substr(begin)) : "";
}

std::string aboutLoop(const Examination& examination) {
    const std::string loop = fixed(examination.loop_ohm * 1e3, 0);
    if (examination.loop_limit_ohm)
        return words(
            "The supply loop has {}\u00a0mΩ; this fridge on this battery starts with up to "
            "{}\u00a0mΩ.",
            loop,
            fixed(*examination.loop_limit_ohm * 1e3, 0));
    return words("The supply loop has {}\u00a0mΩ.", loop);
}

/// The cut-out goes by the filtered voltage, and so does what is said to be to spare.
std::string aboutLowest(const Start& start, const Verdict& verdict) {
    const std::string lowest = volts(start.lowest_v.value_or(0));
    const std::string at = seconds(start.lowest_at_s.value_or(0));
    if (!start.sensed_lowest_v)
        return words("Lowest at the fridge: {} at {}.", lowest, at);
    return words(
        "Lowest at the fridge: {} at {}, filtered {}; its low-voltage cut-out goes by that "
        "and acts at {}.",
        lowest,
        at,
        volts(*start.sensed_lowest_v),
        volts(verdict.cut_out_v));
}

std::string aboutHeldOff(const Verdict& verdict) {
    if (!verdict.headroom_v || !verdict.held_off_lowest_v)
        return words("Held on, there is no lowest value: {}.",
                     words(verdict.no_headroom_reason.c_str()));
    return words("Held on, its filtered voltage would have fallen to {}: {} short.",
                 volts(*verdict.held_off_lowest_v),
                 volts(-*verdict.headroom_v));
}

/// Whose loss the verdict names, with what of it need not be.
std::string aboutCulprit(const Moment& moment) {
    const Start& start = moment.examination().start;
    const Figures figures = figuresAt(moment, start, tellingMoment(start));
    const std::vector<Portion> portions = findPortions(figures);
    const Portion* culprit = findCulprit(figures, portions);
    if (culprit == nullptr || moment.examination().verdict.margin == Margin::Clear)
        return "";
    if (culprit->avoidable_v < 0.02)
        return words("Most is lost in {}: {} of {}.",
                     culprit->name,
                     volts(culprit->volts),
                     volts(figures.lost()));
    return words("{} loses {} of the {} lost in all, {} of it needlessly.",
                 capital(culprit->name),
                 volts(culprit->volts),
                 volts(figures.lost()),
                 volts(culprit->avoidable_v));
}

} // namespace

std::string headline(const Moment& moment) {
    const Examination& examination = moment.examination();
    const bool has_cause = examination.start.outcome == Outcome::Trips ||
                           (examination.start.outcome == Outcome::Starts &&
                            examination.verdict.margin != Margin::Clear);
    const std::string culprit = has_cause ? culpritWords(moment) : "";
    const std::string verdict = verdictWords(examination);
    const std::string heading = culprit.empty() ? verdict : words("{}: {}", verdict, culprit);
    return examination.accuracy == Accuracy::Draft ? words("Draft: {}", heading) : heading;
}

std::vector<std::string> reasons(const Moment& moment) {
    const Examination& examination = moment.examination();
    const Start& start = examination.start;
    const Verdict& verdict = examination.verdict;
    std::vector<std::string> all;
    const auto say = [&](std::string sentence) {
        if (!sentence.empty())
            all.push_back(std::move(sentence));
    };
    if (start.outcome == Outcome::Trips) {
        say(words("At {} its low-voltage cut-out of {} ended the try.",
                  seconds(start.attempts.front().end_s),
                  volts(verdict.cut_out_v)));
        say(aboutHeldOff(verdict));
    } else {
        if (start.outcome != Outcome::Starts)
            say(causeBeyondVerdict(moment));
        if (start.lowest_v && start.lowest_at_s)
            say(aboutLowest(start, verdict));
    }
    if (start.outcome == Outcome::Trips || start.outcome == Outcome::Starts)
        say(aboutCulprit(moment));
    if (moment.inquiry.headline.unsafe)
        say(withNames(moment, moment.inquiry.headline.cause));
    if (const auto running = start::findRunningTry(start); running && running->number > 1)
        say(words("Try {} reaches full speed, at {}.", running->number, seconds(running->at_s)));
    if (examination.network.loop && start.lowest_v)
        say(aboutLoop(examination));
    return all;
}

std::string firstAction(const Moment& moment) {
    // The sentence before it has named the thing: ids are for files.
    std::string action = moment.inquiry.headline.action;
    const std::string& element = moment.inquiry.headline.element;
    text::replaceAll(action, words("the joint {}", element), words("that joint"));
    text::replaceAll(action, words(" for {}.", element), ".");
    text::replaceAll(action, words(" for {},", element), ",");
    return withNames(moment, action);
}

} // namespace ebbline::drawing
