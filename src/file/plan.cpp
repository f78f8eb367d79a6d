// SPDX-License-Identifier: MIT
// The plan, and the ways and keep-outs on it.
#include "reading.h"

#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::file {
namespace {

Picture takePicture(Reading& reading, const toml::table& block) {
    constexpr double widest_m = 1000;
    Fields fields(block, reading.problems);
    Picture picture;
    picture.file = fields.requireText("file").value_or("");
    if (!picture.file.empty() && !isBelow(picture.file))
        reading.problems.add(
            fields.take("file")->source(),
            words("{} does not lie below the scene's folder", inQuotes(picture.file)));
    if (const toml::node* at = fields.take("at_m"))
        picture.at_m = positionOf(*at, reading.problems).value_or(Position{});
    picture.width_m = fields.takeNumber("width_m", 0.1, widest_m).value_or(picture.width_m);
    fields.finish(phrase("unknown key {} in a picture"));
    return picture;
}

/// An outline or a line that must be there.
std::vector<Position> requirePlaces(Fields& fields, const char* key, std::size_t least) {
    const toml::node* node = fields.take(key);
    if (node != nullptr)
        return positionsOf(*node, key, least, fields.problems());
    fields.problems().add(fields.table().source(), words("missing '{}'", key));
    return {};
}

} // namespace

bool isBelow(const std::filesystem::path& name) {
    return name.is_relative() && !name.empty() &&
           std::ranges::none_of(name, [](const auto& step) { return step == ".."; });
}

void readPlan(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    if (const toml::node* outline = fields.take("outline_m"))
        reading.installation.plan.outline_m =
            positionsOf(*outline, "outline_m", 3, reading.problems);
    if (const toml::table* picture = fields.takeTable("picture"))
        reading.installation.plan.picture = takePicture(reading, *picture);
    fields.finish(phrase("unknown key {} in {}"), "[plan]");
}

void readWay(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    const auto id = takeId(reading, fields);
    Way way{.id = id.value_or(""), .name = fields.takeText("name")};
    way.line_m = requirePlaces(fields, "line_m", 2);
    way.ambient_c = fields.takeNumber(*installation::findKey("surroundings", "ambient_c"));
    fields.finish(phrase("unknown key {} in a way"));
    if (id)
        reading.installation.ways.push_back(std::move(way));
}

void readKeepOut(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    const auto id = takeId(reading, fields);
    KeepOut keep_out{.id = id.value_or(""), .name = fields.takeText("name")};
    keep_out.outline_m = requirePlaces(fields, "outline_m", 3);
    fields.finish(phrase("unknown key {} in a keep-out"));
    if (id)
        reading.installation.keep_outs.push_back(std::move(keep_out));
}

} // namespace ebbline::file
