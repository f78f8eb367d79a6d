// SPDX-License-Identifier: MIT
// Joints: a kind in quotes, or a table.
#include "reading.h"

#include "ebbline/words.h"

namespace ebbline::file {
namespace {

void takeKind(const Reading& reading,
              const toml::node& node,
              const std::string& name,
              Joint& joint,
              Problems& problems) {
    const auto kind = textOf(node, name, problems);
    if (!kind)
        return;
    joint.kind = *kind;
    if (!reading.catalogues.joints.contains(*kind))
        problems.addUnknown(
            node.source(), phrase("unknown joint {}"), *kind, namesOf(reading.catalogues.joints));
}

} // namespace

Joint jointOf(const Reading& reading,
              const toml::node& node,
              const std::string& name,
              Problems& problems,
              Joint joint) {
    const toml::table* block = node.as_table();
    if (block == nullptr && !node.is_string())
        problems.add(node.source(),
                     words("'{}' wants a kind in quotes or {}",
                           name,
                           "{ kind, condition, resistance_mohm }"));
    else if (block == nullptr)
        takeKind(reading, node, name, joint, problems);
    if (block == nullptr)
        return joint;
    Fields fields(*block, problems);
    if (const toml::node* kind = fields.take("kind"))
        takeKind(reading, *kind, "kind", joint, problems);
    const auto take = [&](std::string_view key) -> std::optional<Value> {
        const toml::node* stated = fields.take(key);
        return stated == nullptr ? std::nullopt
                                 : valueOf(*stated, *installation::findKey("joint", key), problems);
    };
    if (const auto condition = take("condition"))
        joint.condition = std::get<std::string>(*condition);
    for (const installation::JointNumber& number : installation::jointNumbers())
        if (const auto value = take(number.name))
            number.set(joint, std::get<double>(*value));
    if (const auto connected = take("connected"))
        joint.connected = std::get<bool>(*connected);
    fields.finish(phrase("unknown key {} in a joint"));
    return joint;
}

} // namespace ebbline::file
