// SPDX-License-Identifier: MIT
// Pieces of JSON that several commands write. Undefined values are null, never 0.
#include "objects.h"

namespace ebbline::report {
namespace {

Json toJson(const Change& change) {
    if (const auto* set = std::get_if<Set>(&change))
        return {{"path", set->path},
                {"value", std::visit([](const auto& value) { return Json(value); }, set->value)}};
    return nullptr; // remedies set keys and do nothing else
}

Json toJson(const std::optional<RemedyStep>& step) {
    if (!step)
        return nullptr;
    Json changes = Json::array();
    for (const Change& change : step->changes)
        changes.push_back(toJson(change));
    return {{"value", step->value},
            {"outcome", nameOf(step->outcome)},
            {"margin", nameOf(step->margin)},
            {"headroom_v", orNull(step->headroom_v)},
            {"set", changes}};
}

} // namespace

Json orNull(const std::optional<double>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json toJson(const RuleFinding& finding) {
    return {{"rule", finding.rule},
            {"state", nameOf(finding.state)},
            {"unchecked", finding.unchecked},
            {"on", finding.on},
            {"value", orNull(finding.value)},
            {"limit", orNull(finding.limit)},
            {"limit_is_least", finding.limit_is_least},
            {"unit", finding.unit},
            {"reason", finding.reason},
            {"source", finding.source}};
}

Json toJson(const Loss& loss) {
    return {{"element", loss.element},
            {"side", nameOf(loss.side)},
            {"volts", loss.volts},
            {"avoidable_v", loss.avoidable_v},
            {"basis", nameOf(loss.basis)},
            {"sum", loss.sum},
            {"remedy", loss.remedy.empty() ? Json(nullptr) : Json(loss.remedy)}};
}

Json toJson(const Remedy& remedy) {
    return {{"kind", nameOf(remedy.kind)},
            {"repair", isRepair(remedy.kind)},
            {"on", remedy.on},
            {"cure", toJson(remedy.cure)},
            {"below", toJson(remedy.below)}};
}

} // namespace ebbline::report
