// SPDX-License-Identifier: MIT
// Resistances that a drawing leaves to the catalogues.
#include "ohms.h"

#include "ebbline/error.h"
#include "ebbline/network.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

namespace ebbline::network {
namespace {

[[noreturn]] void refuse(const std::string& message) {
    throw SceneError({Problem{.message = message}});
}

} // namespace

double Ohms::joint(const std::string& name, const Joint& joint) const {
    if (joint.resistance_mohm)
        return *joint.resistance_mohm * 1e-3;
    const auto kind = m_catalogues.joints.find(joint.kind);
    if (kind == m_catalogues.joints.end())
        refuse(words("joint '{}': no kind '{}' in the catalogue", name, joint.kind));
    const auto condition = kind->second.find(joint.condition);
    if (condition == kind->second.end())
        refuse(words("joint '{}': no condition '{}' of '{}' in the catalogue",
                     name,
                     joint.condition,
                     joint.kind));
    return condition->second * 1e-3;
}

void Ohms::setFuse(Element& element, const Fuse& fuse) const {
    const auto style = m_catalogues.fuse_styles.find(fuse.style);
    if (style == m_catalogues.fuse_styles.end())
        refuse(words("fuse '{}': no style '{}' in the catalogue", element.part, fuse.style));
    const double left = 1 - style->second.at("aged_pct") / 100 * fuse.age_pct / 100;
    const double link_ohm = elementMohm(element.part, fuse) * 1e-3 / left;
    element.ohm = fuse.holder_mohm * 1e-3 + link_ohm;
    element.warm_ohm = link_ohm * style->second.at("warm_pct") / 100;
    element.parts_a = style->second.at("parting_times") * left * fuse.rating_a;
}

double Ohms::elementMohm(const std::string& id, const Fuse& fuse) const {
    if (fuse.resistance_mohm)
        return *fuse.resistance_mohm;
    const auto elements = m_catalogues.fuses.find(fuse.style);
    if (elements != m_catalogues.fuses.end())
        if (const auto entry = elements->second.find(fuse.rating_a);
            entry != elements->second.end())
            return entry->second;
    refuse(words("fuse '{}': no element of {} A in the catalogue; expected one of its ratings, "
                 "or resistance_mohm",
                 id,
                 text::number(fuse.rating_a)));
}

double Ohms::spread(const std::string& id, const Chassis& chassis) const {
    if (chassis.spread_mohm)
        return *chassis.spread_mohm * 1e-3;
    const auto entry = m_catalogues.chassis.find(chassis.material);
    if (entry == m_catalogues.chassis.end())
        refuse(words("chassis '{}': no material '{}' in the catalogue", id, chassis.material));
    return entry->second * 1e-3;
}

double Ohms::conductor(const std::string& name,
                       const Size& size,
                       const std::string& conductor,
                       double length_m,
                       double celsius) const {
    const auto mohm_per_m = conductorMohmPerM(size, conductor, m_catalogues);
    if (!mohm_per_m)
        refuse(words("run '{}': no conductor '{}' of size {} in the catalogue",
                     name,
                     conductor,
                     text::number(size.value)));
    return conductorOhm(*mohm_per_m, length_m, celsius);
}

double areaOf(const Size& size) {
    switch (size.scale) {
    case SizeScale::Awg:
        return awgArea(size.value);
    case SizeScale::Sae:
        return saeArea(size.value).value_or(0);
    case SizeScale::Mm2:
        break;
    }
    return size.value;
}

} // namespace ebbline::network
