// SPDX-License-Identifier: MIT
// How the pictures tell a start: in which words, and over which stretch of time.
#include "ebbline/telling.h"

#include "named.h"
#include "names.h"
#include "sentences.h"
#include "time_window.h"

#include "ebbline/words.h"

namespace ebbline::drawing {

Wording wordingOf(const Moment& moment) {
    return {.heading = headline(moment),
            .cause = withNames(moment, moment.inquiry.headline.cause),
            .reasons = reasons(moment),
            .action = firstAction(moment)};
}

Stretch shownStretch(const Moment& moment) {
    const Examination& examination = moment.examination();
    const TimeWindow window = findWindow(
        examination.start, examination.held_off ? &*examination.held_off : nullptr, moment.at_s);
    return {window.from_s, window.to_s};
}

std::string activityAt(const Moment& moment) {
    return activity(moment.examination().start, moment.at_s);
}

std::string nameOfThing(const Installation& installation, const std::string& thing) {
    if (const std::optional<Joint> joint = findJoint(installation, thing)) {
        const std::string name = nameOfJoint(installation, thing);
        // A conductor that ends in its part without one.
        const std::string none = term("none");
        return joint->kind == "none" && name.starts_with(none + " ")
                   ? words("no joint") + name.substr(none.size())
                   : name;
    }
    const std::string owner = thing.substr(0, thing.find('.'));
    if (const Run* run = installation.findRun(owner))
        return nameOf(*run);
    const Part* part = installation.findPart(owner);
    return part == nullptr ? thing : nameOf(*part);
}

std::string nameOfTerminal(const Installation& installation, const Terminal& terminal) {
    const std::string name = placeOf(installation, terminal);
    if (terminal.terminal == "plus" || terminal.terminal == "minus")
        return name;
    if (terminal.terminal == "line")
        return words("{}, line side", name);
    if (terminal.terminal == "load")
        return words("{}, load side", name);
    return words("{}, terminal {}", name, terminal.terminal);
}

} // namespace ebbline::drawing
