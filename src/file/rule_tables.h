// SPDX-License-Identifier: MIT
// The blocks of a catalogue that hold published tables of rules.
#pragma once

#include "fields.h"

#include "ebbline/rule_tables.h"

#include <span>
#include <string_view>

namespace ebbline::file {

/// A kind of block and how it is read; `source` says where the table comes from.
struct RuleTableKind {
    std::string_view name;
    void (*read)(Fields& fields, const TableSource& source, RuleTables& tables);
};
[[nodiscard]] std::span<const RuleTableKind> ruleTableKinds();

/// Source and certainty of a block, both required.
[[nodiscard]] TableSource takeSource(Fields& fields);

} // namespace ebbline::file
