// SPDX-License-Identifier: MIT
// The two lines of the gap chart and what lies between them.
#pragma once

#include "columns.h"
#include "scale.h"

#include "ebbline/canvas.h"

namespace ebbline::drawing {

/// The lines in pixels. Of the minus side what is drawn is cut-out plus its rise, so that the gap
/// is what is to spare.
struct GapLines {
    std::vector<Point> plus;
    std::vector<Point> minus;
};

/// Volts that the chart has to show, of the plus side's scale: at no instant of the first attempt
/// nor with the cut-out held off does a line leave it, as long as the supply does not collapse.
[[nodiscard]] Scale findVoltScale(const Moment& moment, double top, double bottom);

/// Both lines along their columns, which have been laid out.
[[nodiscard]] GapLines
makeLines(const Columns& columns, const Figures& figures, const Scale& scale);

/// Where the two lines of a shared foot cross; past the end where they do not.
[[nodiscard]] double crossingOf(const GapLines& lines);

/// Where one thing ends and the next begins: all the way where both sides share their stations,
/// else from each line outwards, to where its own names stand.
void drawStations(Canvas& canvas, const Columns& columns, const GapLines& lines, const Box& plot);

/// The ground between the lines where something is to spare, hatch where it is used up.
void drawGap(Canvas& canvas, const GapLines& lines, bool shared, double unit);
/// A block of text between the lines, as far left as it fits; nothing where it does not.
void writeInGap(Canvas& canvas, const GapLines& lines, std::span<const TextLine> block, double gap);

/// "plus side falls" above the upper line, "minus side rises" below the lower one, at its longest
/// stretch.
void labelLine(Canvas& canvas,
               const std::vector<Point>& line,
               bool is_plus,
               const Style& style,
               const Box& within);
/// What stands at the fridge's end of the gap: "above cut-out", "under cut-out".
[[nodiscard]] std::string endWords(const Figures& figures);
/// Volts lost in a column; of one lifted by a charging source with its sign.
[[nodiscard]] std::string columnWords(double lost_v);
/// The lines themselves.
void drawLines(Canvas& canvas, const GapLines& lines, double width);

} // namespace ebbline::drawing
