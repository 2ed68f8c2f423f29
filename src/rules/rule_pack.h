#pragma once

#include <string>
#include <string_view>

#include "base/toml.h"
#include "rules/rule.h"

namespace benchwarden::rules {

/// Reads a pack. Every fault at once, with its line: an unknown kind, a figure the kind has not or
/// in another unit, a missing citation, two rules of one id. Nothing of a faulty pack is used.
///
///     pack = "england"
///     title = "England"
///     edition = "2026-11-25"
///     remarks = "..."
///     [[rules]]
///     id = "uk.store.own"
///     kind = "storage-clock"
///     citation = "EPR 2016 (SI 2016/1154) Sch 25 Pt 3 para 2"
///     edition = "as amended to 2026"
///     confidence = "text-seen"      # second-hand, from-memory
///     sentence = "..."
///     clears = "..."
///     days = "calendar"             # or "working"; calendar where it is not said
///     figures = { limit = { value = "12", unit = "months" } }
///     settings = { ... }
///     label_words = "Used Oil"      # of a rule about a container: what it has to bear
///     applies = [{ of = "stream", field = "hazardous", codes = ["yes"] }]
base::Result<RulePack, base::FileFaults> read_pack(std::string_view bytes, const std::string& file);

}  // namespace benchwarden::rules
