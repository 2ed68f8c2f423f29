#pragma once

#include <string>
#include <string_view>

#include "base/toml.h"

// The words of a rule pack, which people read beside a finding, in a report and in a calendar.

namespace benchwarden::rules {

// In code points: what the longest of the built-in packs needs, doubled and rounded.
inline constexpr std::size_t kTitleMax = 100;
/// On a label of 105 mm, to be read from 2 m: common practice, no source.
inline constexpr std::size_t kLabelWordsMax = 60;
inline constexpr std::size_t kWordsMax = 200;      ///< an edition, a setting
inline constexpr std::size_t kSentenceMax = 1000;  ///< a citation, what a rule says, what ends it
inline constexpr std::size_t kRemarksMax = 2000;

/// A fault where a text is blank, too long or holds a sign that no reader sees.
void check_text(base::TomlReader& reader, const std::string& name, std::string_view text,
                std::size_t longest);
/// A required text, checked so; "" after a fault.
std::string read_words(base::TomlReader& reader, const base::Toml& table, std::string_view name,
                       std::size_t longest);
/// The name of a rule goes into the name of every finding of it, which entries give back.
std::string read_rule_id(base::TomlReader& reader, const base::Toml& table);
std::string read_pack_name(base::TomlReader& reader, const base::Toml& table);

}  // namespace benchwarden::rules
