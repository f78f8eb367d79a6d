// SPDX-License-Identifier: MIT
// A picture of one start as PNG or SVG; needs no display.
#include "commands.h"
#include "progress.h"
#include "scene.h"

#include "ebbline/drawing.h"
#include "ebbline/engine.h"
#include "ebbline/error.h"
#include "ebbline/inquiry.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <filesystem>
#include <optional>
#include <system_error>

namespace ebbline::cli {
namespace {

constexpr int most_px = 8000; // each way

struct Size {
    int width = 0;
    int height = 0;
};

[[noreturn]] void refuse(const std::string& message) {
    throw SceneError({Problem{.message = message}});
}

/// "1600x1000".
std::optional<Size> readSize(const std::string& text) {
    const char* const end = text.data() + text.size();
    Size size;
    const auto first = std::from_chars(text.data(), end, size.width);
    if (first.ec != std::errc{} || first.ptr == end || *first.ptr != 'x')
        return std::nullopt;
    const auto last = std::from_chars(first.ptr + 1, end, size.height);
    if (last.ec != std::errc{} || last.ptr != end)
        return std::nullopt;
    return size;
}

View viewOf(const PictureOptions& options) {
    const std::optional<Size> size = readSize(options.size);
    if (!size)
        refuse(words("--size wants width and height like 1600x1000, found '{}'", options.size));
    if (size->width < drawing::least_width || size->height < drawing::least_height)
        refuse(words("--size is {}, expected at least {}x{}",
                     options.size,
                     text::number(drawing::least_width),
                     text::number(drawing::least_height)));
    if (size->width > most_px || size->height > most_px)
        refuse(words("--size is {}, expected at most {} each way", options.size, most_px));
    return {.width = static_cast<double>(size->width),
            .height = static_cast<double>(size->height),
            .paper = options.paper == "dark" ? Paper::Dark : Paper::Light};
}

bool isSvg(const PictureOptions& options) {
    return options.output.ends_with(".svg");
}

/// Told before the simulation, not after it.
void checkOutput(const PictureOptions& options) {
    if (options.output == "-")
        return;
    if (!isSvg(options) && !options.output.ends_with(".png"))
        refuse(
            words("--output is '{}', expected a name that ends in .png or .svg", options.output));
    const std::filesystem::path path(options.output);
    const std::filesystem::path folder = path.has_parent_path() ? path.parent_path() : ".";
    const bool exists = ::access(path.c_str(), F_OK) == 0;
    if (::access((exists ? path : folder).c_str(), W_OK) != 0)
        throw std::system_error(
            errno, std::generic_category(), words("cannot write '{}'", options.output));
}

/// The page alone tells of the loop budget and of remedies.
Inquiry ask(const PictureOptions& options, const Scene& scene) {
    const auto engine = engine::makePool({});
    Progress progress;
    const auto show = [&](const std::string& step) { progress.show(step); };
    return options.room || !options.only.empty()
               ? study::inquireBriefly(*engine, scene.installation, scene.models, {}, show)
               : study::inquire(*engine, scene.installation, scene.models, {}, show);
}

/// The moment asked for, or the one that says most.
double timeOf(const PictureOptions& options, const Start& start) {
    const double first_s = start.frames.front().at_s;
    const double at_s = options.at_s.value_or(drawing::tellingMoment(start));
    if (!(at_s >= first_s && at_s <= start.horizon_s))
        refuse(words("--at is {}, expected a time from {} to {} s, which is what was simulated",
                     text::figure(at_s),
                     text::fixed(first_s, 2),
                     text::fixed(start.horizon_s, 2)));
    return at_s;
}

Drawing draw(const PictureOptions& options, const Moment& moment, const View& view) {
    if (options.room)
        return drawing::room(moment, view);
    if (options.only == "plan")
        return drawing::plan(moment, view);
    if (options.only == "gap")
        return drawing::gapChart(moment, view);
    if (options.only == "time")
        return drawing::timeChart(moment, view);
    return drawing::page(moment, view);
}

} // namespace

ExitCode picture(const PictureOptions& options) {
    const View view = viewOf(options);
    checkOutput(options);
    const Inquiry inquiry = ask(options, readScene(options.scene));
    const Moment moment{.inquiry = inquiry, .at_s = timeOf(options, inquiry.examination.start)};
    const Drawing drawing = draw(options, moment, view);
    write(options.output, isSvg(options) ? drawing::writeSvg(drawing) : drawing::writePng(drawing));
    return ExitCode::Ran;
}

} // namespace ebbline::cli
