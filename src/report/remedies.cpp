// SPDX-License-Identifier: MIT
// Remedies in words: what cures, and what does not suffice by itself.
#include "remedies.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <fmt/core.h>

namespace ebbline::report {
namespace {

using study::actionWords;
using text::fixed;

std::string resultWords(const RemedyStep& step) {
    if (step.outcome != Outcome::Starts)
        return words("does not start");
    const std::string spare_v = fixed(step.headroom_v, 2);
    return step.margin == Margin::Clear ? words("starts clear, {} V to spare", spare_v)
                                        : words("starts only just, {} V to spare", spare_v);
}

} // namespace

std::string remedyWords(const Remedy& remedy) {
    const auto& below = remedy.below;
    if (!remedy.cure)
        return below ? words("{}: not by this alone, {}",
                             actionWords(remedy, below->value),
                             resultWords(*below))
                     : "";
    const std::string cure =
        words("{}: {}", actionWords(remedy, remedy.cure->value), resultWords(*remedy.cure));
    return below
               ? words("{} ({}: {})", cure, actionWords(remedy, below->value), resultWords(*below))
               : cure;
}

} // namespace ebbline::report
