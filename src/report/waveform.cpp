// SPDX-License-Identifier: MIT
// What a scope at the fridge would show, for a spreadsheet.
#include "ebbline/report.h"
#include "ebbline/text.h"

namespace ebbline::report {

std::string writeWaveform(const Waveform& waveform) {
    std::string out = "time_s,volts_v,filtered_v,amps_a,speed_rad_per_s\n";
    for (std::size_t i = 0; i < waveform.time_s.size(); ++i) {
        out += text::number(waveform.time_s[i]);
        for (const auto* column :
             {&waveform.volts, &waveform.sensed, &waveform.amps, &waveform.speed}) {
            out += ',';
            out += text::number((*column)[i]);
        }
        out += '\n';
    }
    return out;
}

} // namespace ebbline::report
