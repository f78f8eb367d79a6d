// SPDX-License-Identifier: MIT
// A picture of one start as PNG or SVG; needs no display.
#include "commands.h"
#include "progress.h"
#include "scene.h"

#include "ebbline/drawing.h"
#include "ebbline/engine.h"
#include "ebbline/error.h"
#include "ebbline/inquiry.h"

#include <charconv>

namespace ebbline::cli {
namespace {

[[noreturn]] void refuse(const std::string& message) {
    throw SceneError({Problem{.message = message}});
}

/// "1600x1000".
View viewOf(const PictureOptions& options) {
    constexpr int smallest = 200;
    constexpr int largest = 8000;
    const std::string& text = options.size;
    const char* const end = text.data() + text.size();
    int width = 0;
    int height = 0;
    const auto first = std::from_chars(text.data(), end, width);
    const bool has_sign = first.ec == std::errc{} && first.ptr != end && *first.ptr == 'x';
    const auto last = std::from_chars(has_sign ? first.ptr + 1 : end, end, height);
    if (last.ec != std::errc{} || last.ptr != end)
        refuse("--size wants width and height like 1600x1000, found '" + text + "'");
    if (width < smallest || height < smallest || width > largest || height > largest)
        refuse("--size is " + text + ", expected 200 to 8000 each way");
    return {.width = static_cast<double>(width),
            .height = static_cast<double>(height),
            .paper = options.dark ? Paper::Dark : Paper::Light};
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
    const Scene scene = readScene(options.scene);
    const auto engine = engine::makePool({});
    Progress progress;
    const Inquiry inquiry =
        study::inquire(*engine, scene.installation, scene.models, {}, [&](const std::string& step) {
            progress.show(step);
        });
    progress.clear();
    const Start& start = inquiry.examination.start;
    const Moment moment{.inquiry = inquiry,
                        .at_s = options.at_s.value_or(drawing::tellingMoment(start))};
    if (moment.at_s > start.horizon_s)
        refuse("--at lies after the end of the simulation");
    const Drawing drawing = draw(options, moment, view);
    write(options.output,
          options.output.ends_with(".svg") ? drawing::writeSvg(drawing)
                                           : drawing::writePng(drawing));
    return ExitCode::Ran;
}

} // namespace ebbline::cli
