// SPDX-License-Identifier: MIT
// What is said of a start in more than one place: on the terminal and in the page that travels.
#pragma once

#include "ebbline/inquiry.h"
#include "ebbline/words.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline::report {

/// "The fridge starts, but only just."
[[nodiscard]] std::string outcomeWords(const Examination& examination);

/// It runs at less than nine tenths of its speed.
[[nodiscard]] bool isSlow(const Examination& examination);

/// A figure with its name.
struct Fact {
    std::string label;
    std::string words;
};
/// Lowest voltage, cut-out, what is to spare, the supply loop beside its limit, currents; what is
/// not defined is missing.
[[nodiscard]] std::vector<Fact> findFacts(const Examination& examination);

/// "blinks 5 times every 6 s: it gave up for low voltage"; what the controller's lamp shows.
[[nodiscard]] std::string lampWords(const Inquiry& inquiry);

/// "battery, inside", "plus side", "minus side".
[[nodiscard]] std::string sideWords(Side side);
/// "Where the 2.14 V is lost at that moment (battery at rest 12.49 V, fridge 10.35 V)"; with a
/// charging source on the fridge may stand above the battery at rest.
[[nodiscard]] std::string ledgerWords(const Ledger& ledger);
/// How well the rows add up, a phrase.
[[nodiscard]] std::string closingWords(const Start& start);
/// "10.32 V at that moment, lowest 10.32 V, highest 12.49 V".
[[nodiscard]] std::string meterWords(const MeterReading& reading);
/// What of a row need not be; "-" where that is next to nothing.
[[nodiscard]] std::string needlessWords(const std::vector<Loss>& losses, std::size_t row);

/// "kept (drop only)", "BROKEN", ...: a drop rule that is kept must not look like a fridge that
/// starts.
[[nodiscard]] std::string stateWords(const RuleFinding& finding);
/// "0.70 m, at most 0.20 m"; empty without a value.
[[nodiscard]] std::string figureWords(const RuleFinding& finding);
/// Broken first, then what was not judged, then what is kept; each in the rules' own order.
[[nodiscard]] std::vector<const RuleFinding*> sortByWeight(std::span<const RuleFinding> findings);
// For words().
inline constexpr const char* unchecked_words =
    phrase("Rests on a value from memory, not yet compared with the standard.");
inline constexpr const char* rules_words =
    phrase("Whether the fridge starts is said by 'headroom' alone. Local codes and licensed "
           "practice come first.");

/// "standard", "typical", ...; what the drawing says of the very thing: nobody here measured it.
[[nodiscard]] std::string basisWords(Basis basis);
/// What comes before any action, a sentence.
[[nodiscard]] std::string careWords();
/// mohm of a row of the ledger; "-" where no current flows, "open" of a contact that is.
[[nodiscard]] std::string ohmsWords(const LedgerRow& row);
/// That a redesign cures no poor joint; empty where none of both is among the remedies.
[[nodiscard]] std::string redesignWords(const std::vector<Remedy>& remedies);

/// What is assumed of every start, a sentence each.
[[nodiscard]] std::vector<std::string> assumptionWords(const Examination& examination);
/// What is dangerous about it all, a sentence each.
[[nodiscard]] std::vector<std::string> cautionWords();

} // namespace ebbline::report
