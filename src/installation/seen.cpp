// SPDX-License-Identifier: MIT
// The installation as an eye sees it.
#include "ebbline/seen.h"

namespace ebbline::installation {
namespace {

void makeSound(Fuse& fuse) {
    fuse = {.style = fuse.style, .rating_a = fuse.rating_a};
}
void makeSound(Breaker& breaker) {
    breaker = {.rating_a = breaker.rating_a};
}
void makeSound(Isolator& isolator) {
    isolator = {.closed = isolator.closed};
}
void makeSound(Panel& panel) {
    panel.rail_mohm = Panel{}.rail_mohm;
    for (PanelWay& way : panel.ways)
        way = {.closed = way.closed};
}
void makeSound(Stud& stud) {
    stud.face_mohm = Stud{}.face_mohm;
}
void makeSound(BenchLeads& leads) {
    leads = {.length_m = leads.length_m, .area_mm2 = leads.area_mm2, .rating_a = leads.rating_a};
}
void makeSound(Thermostat& thermostat) {
    thermostat = {};
}
/// Of anything else nothing but its joints lies on the way to the fridge.
template <class Other>
void makeSound(Other&) {}

template <class Thing>
void renewJoints(Thing& thing) {
    for (const NamedJoint& joint : jointsOf(thing))
        *joint.joint = {.kind = joint.joint->kind};
}

template <class Thing>
void forgetWords(Thing& thing) {
    thing.name.clear();
    thing.note.clear();
}

} // namespace

Installation asSeen(Installation installation) {
    installation.title.clear();
    installation.note.clear();
    for (Part& part : installation.parts) {
        forgetWords(part);
        renewJoints(part);
        std::visit([](auto& body) { makeSound(body); }, part.body);
    }
    for (Run& run : installation.runs) {
        forgetWords(run);
        renewJoints(run);
        run.broken_pct = 0;
    }
    return installation;
}

} // namespace ebbline::installation
