// SPDX-License-Identifier: MIT
// What the pictures say in words.
#include "sentences.h"

#include "names.h"
#include "words.h"

#include "ebbline/text.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

using text::fixed;

/// As a sentence begins.
std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

void replaceAll(std::string& text, const std::string& what, const std::string& with) {
    for (std::size_t at = text.find(what); at != std::string::npos;
         at = text.find(what, at + with.size()))
        text.replace(at, what.size(), with);
}

/// Units as people write them.
std::string tidy(std::string sentence) {
    replaceAll(sentence, "mm2", "mm²");
    replaceAll(sentence, "mohm", "mΩ");
    // A number and its unit stay on one line.
    for (const char* unit : {"mm²", "mΩ", "V", "A", "s", "m", "%"})
        for (const char* after : {" ", ".", ",", ";", ":", ")"})
            for (char digit = '0'; digit <= '9'; ++digit)
                replaceAll(sentence,
                           std::string(1, digit) + " " + unit + after,
                           std::string(1, digit) + "\u00a0" + unit + after);
    return sentence;
}

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
        return words("Does not start: the fuse opens");
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

/// What a word of a sentence means in the scene, where it is an id; ids that are ordinary words
/// are left alone unless the sentence is about them.
std::string nameInstead(const Moment& moment, const std::string& word) {
    const Installation& installation = moment.examination().network.installation;
    const auto is_rule = [&](const RuleFinding& finding) { return finding.rule == word; };
    if (std::ranges::any_of(moment.inquiry.rules, is_rule)) {
        std::string rule = "“" + word + "”";
        std::ranges::replace(rule, '-', ' ');
        return rule;
    }
    if (word != moment.inquiry.headline.element && word.find_first_of("-.") == std::string::npos)
        return word;
    if (findJoint(installation, word))
        return nameOfJoint(installation, word);
    const std::string owner = word.substr(0, word.find('.'));
    if (const Run* run = installation.findRun(owner))
        return nameOf(*run);
    const Part* part = installation.findPart(owner);
    return part == nullptr ? word : nameOf(*part);
}

/// A sentence of the verdict with names instead of ids.
std::string withNames(const Moment& moment, const std::string& sentence) {
    std::string result;
    std::string word;
    const auto finish = [&] {
        // A full stop at the end is the sentence's.
        const std::size_t stops = word.size() - (word.find_last_not_of('.') + 1);
        const std::string stem = word.substr(0, word.size() - stops);
        result += stem.empty() ? "" : nameInstead(moment, stem);
        result.append(stops, '.');
        word.clear();
    };
    for (const char character : sentence) {
        const bool in_id = (character >= 'a' && character <= 'z') ||
                           (character >= '0' && character <= '9') || character == '-' ||
                           character == '.';
        if (in_id) {
            word += character;
            continue;
        }
        finish();
        result += character;
    }
    finish();
    return capital(tidy(result));
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

std::string aboutHeldOff(const Verdict& verdict) {
    if (!verdict.headroom_v || !verdict.held_off_lowest_v)
        return words("Held on, there is no lowest value: {}.",
                     words(verdict.no_headroom_reason.c_str()));
    return words("Held on, it would have fallen to {}: {} short.",
                 volts(*verdict.held_off_lowest_v),
                 volts(-*verdict.headroom_v));
}

/// Whose loss the verdict names, with what of it need not be.
std::string aboutCulprit(const Moment& moment) {
    const Start& start = moment.examination().start;
    const Figures figures = figuresAt(moment, start, tellingMoment(start));
    const std::vector<Portion> portions = findPortions(figures);
    const Portion* culprit = findCulprit(portions);
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

std::string remedyWhat(const Installation& installation, const Remedy& remedy, double value) {
    const Part* part = installation.findPart(remedy.on);
    const Run* run = installation.findRun(remedy.on);
    const std::string on = part != nullptr  ? nameOf(*part)
                           : run != nullptr ? nameOf(*run)
                                            : nameOfJoint(installation, remedy.on);
    switch (remedy.kind) {
    case RemedyKind::SwitchOn:
        return words("switch on {}", on);
    case RemedyKind::RenewFuse:
        return words("renew or reset {}", on);
    case RemedyKind::RemakeJoint:
        return words("remake {}", on);
    case RemedyKind::RemakeJoints:
        return words("remake every poor joint");
    case RemedyKind::RenewContact:
        return words("new contact in {}", on);
    case RemedyKind::RenewHolder:
        return words("new holder for {}", on);
    case RemedyKind::ChargeBattery:
        return words("charge {} to {} %", on, fixed(value, 0));
    case RemedyKind::RenewBattery:
        return words("new battery, charged");
    case RemedyKind::ChargerOn:
        return words("charging source on");
    case RemedyKind::OtherLoadsOff:
        return words("other loads off");
    case RemedyKind::LargerFuse:
        return words("{} of {} A", on, text::number(value));
    case RemedyKind::ThickerCable:
        return words("{} instead of {}", nameOf(Size{remedy.scale, value}), on);
    case RemedyKind::ShorterWay:
        return words("{} only {} long", on, metres(value));
    case RemedyKind::DoubleVoltage:
        return words("24 V instead of 12 V");
    }
    return "";
}

} // namespace

std::string figure(double value, int decimals) {
    const std::string text = fixed(std::abs(value), decimals);
    const bool is_zero = text.find_first_not_of("0.") == std::string::npos;
    return value < 0 && !is_zero ? "−" + text : text;
}

std::string seconds(double at_s) {
    return words("{}\u00a0s", figure(at_s, 2));
}

std::string volts(double value) {
    return words("{}\u00a0V", figure(value, 2));
}

std::string lossWords(double value) {
    return value < -0.005 ? words("gains {}", volts(-value)) : words("loses {}", volts(value));
}

std::string headline(const Moment& moment) {
    const Examination& examination = moment.examination();
    const bool has_cause = examination.start.outcome == Outcome::Trips ||
                           (examination.start.outcome == Outcome::Starts &&
                            examination.verdict.margin != Margin::Clear);
    const std::string culprit = has_cause ? culpritWords(moment) : "";
    const std::string verdict = verdictWords(examination);
    return culprit.empty() ? verdict : words("{}: {}", verdict, culprit);
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
    } else if (start.lowest_v && start.lowest_at_s) {
        say(words("Lowest at the fridge: {} at {}; its low-voltage cut-out is {}.",
                  volts(*start.lowest_v),
                  seconds(*start.lowest_at_s),
                  volts(verdict.cut_out_v)));
    }
    if (start.outcome == Outcome::Trips || start.outcome == Outcome::Starts)
        say(aboutCulprit(moment));
    else
        say(causeBeyondVerdict(moment));
    if (verdict.margin == Margin::Clear &&
        moment.inquiry.headline.cause.find("not safe") != std::string::npos)
        say(withNames(moment, moment.inquiry.headline.cause));
    if (examination.network.loop && start.lowest_v)
        say(aboutLoop(examination));
    return all;
}

std::string firstAction(const Moment& moment) {
    // The sentence before it has named the thing: ids are for files.
    std::string action = moment.inquiry.headline.action;
    const std::string& element = moment.inquiry.headline.element;
    replaceAll(action, "the joint " + element, words("that joint"));
    replaceAll(action, " for " + element + ".", ".");
    return withNames(moment, action);
}

std::vector<RemedyLine> remedyLines(const Moment& moment) {
    const Installation& installation = moment.examination().network.installation;
    std::vector<RemedyLine> lines;
    for (const Remedy& remedy : moment.inquiry.remedies) {
        const auto& step = remedy.cure ? remedy.cure : remedy.below;
        if (!step)
            continue;
        RemedyLine line{.what = remedyWhat(installation, remedy, step->value),
                        .result = words("not enough"),
                        .starts = step->outcome == Outcome::Starts};
        if (line.starts)
            line.result = step->margin == Margin::Clear
                              ? words("clear, {}", volts(step->headroom_v.value_or(0)))
                              : words("only just, {}", volts(step->headroom_v.value_or(0)));
        lines.push_back(std::move(line));
    }
    std::ranges::stable_partition(lines, &RemedyLine::starts);
    return lines;
}

std::string circumstances(const Installation& installation) {
    std::string all = words("{} V", text::number(installation.nominal_v));
    for (const Part& part : installation.parts)
        if (const auto* battery = std::get_if<Battery>(&part.body)) {
            all += words(" · battery {} % charged", fixed(battery->charge_pct, 0));
            break;
        }
    return all + words(" · {} °C", figure(installation.surroundings.ambient_c, 0));
}

std::string activity(const Start& start, double at_s) {
    std::optional<Happening> last;
    for (const StartEvent& event : start.events)
        if (event.at_s <= at_s + 1e-9)
            last = event.what;
    if (!last)
        return words("off");
    switch (*last) {
    case Happening::SupplyOn:
        return words("not called");
    case Happening::Calls:
        return words("called");
    case Happening::Positions:
        return words("positions");
    case Happening::SpinsUp:
        return words("spins up");
    case Happening::FullSpeed:
        return words("runs");
    case Happening::GaveUp:
        return words("gave up");
    case Happening::TriesAgain:
        return words("tries again");
    case Happening::FuseOpens:
        return words("fuse opened");
    }
    return "";
}

std::string balance(const Figures& figures) {
    if (!figures.hasLoop())
        return words("It needs {} to stay on.", volts(figures.cut_out_v));
    const std::string needs = volts(figures.cut_out_v);
    const std::string arrives = volts(figures.arriving());
    return figures.reversed
               ? words("It needs {} to stay on. {} arrive the wrong way round.", needs, arrives)
               : words("It needs {} to stay on. {} arrive.", needs, arrives);
}

} // namespace ebbline::drawing
