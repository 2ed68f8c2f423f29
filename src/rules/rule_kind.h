#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "rules/figure_range.h"
#include "rules/rule.h"
#include "rules/scene.h"

namespace benchwarden::rules {

/// A figure that rules of a kind have.
struct FigureSpec {
  std::string_view name;
  std::vector<std::string_view> units;  ///< it is in one of these
  bool required = true;
  std::optional<FigureRange> range = std::nullopt;  ///< none: that of its unit
};
/// What a setting without choices names. "One or more" are parted by commas.
enum class Word {
  kAny,
  kDate,
  kHazardCategories,  ///< one or more of 1, 2, 3, 4
  kThing,             ///< a class of the register
  kThings,            ///< one or more of them
  kSubject,           ///< a class that entries tell of, in the register or not
  kSubjects,          ///< one or more of them
  kKind,              ///< a kind of entry
  kKinds,             ///< one or more of them
  kAttribute,         ///< a field of the register
  kField,             ///< a field of the setting "kind", a column of "list", else of the register
  kCodes,             ///< one or more codes of the field that the setting `of` names
  kWasteTypes,        ///< one or more types of waste
  kForeignTypes,      ///< the same, or "others"
  kSuspicions,        ///< one or more of what oil is suspected to hold
};
/// A setting that rules of a kind have.
struct SettingSpec {
  std::string_view name;
  std::vector<std::string_view> choices;  ///< it is one of these; none: by `word`
  bool required = true;
  Word word = Word::kAny;
  std::string_view of = {};  ///< of codes: the setting that names their field
};

/// What rules of one kind are made of, and how they judge: whatever they find is added to `said`.
struct RuleKind {
  std::string_view name;
  std::vector<FigureSpec> figures;
  std::vector<SettingSpec> settings;
  void (*judge)(const Rule& rule, const Scene& scene, findings::Judgement& said) = nullptr;
  std::string_view about = {};  ///< the class its rules are about, where no setting says it
};

/// nullptr for an unknown kind. The kinds stand in the *_rules.cpp of this folder by subject.
const RuleKind* find_kind(std::string_view name);
/// "advice, storage-clock, …", for faults.
std::string list_kinds();

// The groups: what containers hold, and how long.
std::vector<RuleKind> storage_kinds();
std::vector<RuleKind> quantity_kinds();
std::vector<RuleKind> month_kinds();
std::vector<RuleKind> containment_kinds();
std::vector<RuleKind> bin_kinds();
std::vector<RuleKind> reading_kinds();
std::vector<RuleKind> mixing_kinds();
// What tests and looks told of it, and what becomes of it.
std::vector<RuleKind> tested_kinds();
std::vector<RuleKind> collection_kinds();
std::vector<RuleKind> weighed_kinds();
std::vector<RuleKind> retention_kinds();
// When to hand it over, and a month whose figures nobody signed.
std::vector<RuleKind> handover_kinds();
std::vector<RuleKind> month_close_kinds();
// What is said without a figure, what the register lacks, and days of the calendar.
std::vector<RuleKind> advice_kinds();
// What a look at something, or a round, recorded as not as it is to be.
std::vector<RuleKind> recorded_kinds();
// What is done at intervals, replaced at an age, valid until a day.
std::vector<RuleKind> interval_kinds();
std::vector<RuleKind> expiry_kinds();
// What was used while withdrawn.
std::vector<RuleKind> service_kinds();
// Gas cylinders: tests, fillings, colour, what is fitted to them.
std::vector<RuleKind> cylinder_kinds();
std::vector<RuleKind> gas_loss_kinds();
// Gauges: errors, points, load, reference; where their errors run.
std::vector<RuleKind> gauge_kinds();
std::vector<RuleKind> gauge_drift_kinds();
// Flammables that were counted.
std::vector<RuleKind> cabinet_kinds();
// Rooms and plant, by what the register says of them.
std::vector<RuleKind> room_kinds();
std::vector<RuleKind> spill_kinds();
// Work left open, and what was to be followed up.
std::vector<RuleKind> open_kinds();
// What an inspector holds against each other, and days on which nothing was recorded.
std::vector<RuleKind> cross_check_kinds();
std::vector<RuleKind> idle_kinds();
// How old the newest backup is.
std::vector<RuleKind> backup_kinds();

}  // namespace benchwarden::rules
