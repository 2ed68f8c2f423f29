#include "rules/rule_pack.h"

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <utility>

#include "base/civil_date.h"
#include "base/sha256.h"
#include "base/text.h"
#include "rules/pack_text.h"
#include "rules/rule_kind.h"

namespace benchwarden::rules {
namespace {

using findings::Confidence;

template <class T>
std::optional<T> choose(base::TomlReader& reader, const std::string& name, const std::string& given,
                        std::initializer_list<std::pair<std::string_view, T>> choices) {
  std::vector<std::string> words;
  for (const auto& [word, meaning] : choices) {
    if (word == given) return meaning;
    words.emplace_back(word);
  }
  reader.fault(name + " '" + given + "' is none of " + base::join(words, ", "));
  return std::nullopt;
}

std::string listed(const std::vector<std::string_view>& words) {
  return base::join({words.begin(), words.end()}, ", ");
}

Confidence read_confidence(base::TomlReader& reader, const std::string& given) {
  return choose<Confidence>(reader, "confidence", given,
                            {{"text-seen", Confidence::kTextSeen},
                             {"own-rule", Confidence::kOwnRule},
                             {"second-hand", Confidence::kSecondHand},
                             {"from-memory", Confidence::kFromMemory}})
      .value_or(Confidence::kFromMemory);
}

/// Figures that say when a rule speaks, and not what it holds against: no text says them.
bool is_own(std::string_view figure) {
  constexpr std::array<std::string_view, 4> kOwn{"warn", "near", "back", "after"};
  return std::find(kOwn.begin(), kOwn.end(), figure) != kOwn.end();
}

Condition read_condition(const base::Toml& toml, const std::string& file,
                         base::FileFaults& faults) {
  base::TomlReader reader(toml, file, faults);
  Condition condition;
  condition.of = choose<Condition::Of>(reader, "of", reader.text("of"),
                                       {{"subject", Condition::Of::kSubject},
                                        {"stream", Condition::Of::kStream},
                                        {"workshop", Condition::Of::kWorkshop}})
                     .value_or(Condition::Of::kSubject);
  condition.field = reader.text("field");
  condition.codes = reader.texts("codes");
  condition.line = toml.line;
  if (condition.codes.empty()) reader.fault("a condition needs codes");
  reader.finish();
  return condition;
}

/// Reads the figures and settings that the kind has, and nothing else.
class KindReader {
 public:
  KindReader(const RuleKind& kind, Rule& rule, std::string file, base::FileFaults& faults)
      : kind_(kind), rule_(rule), file_(std::move(file)), faults_(faults) {}

  void read_figures(const base::Toml& toml) {
    base::TomlReader reader(toml, file_, faults_);
    for (const FigureSpec& spec : kind_.figures) {
      if (const base::Toml* one = reader.table(spec.name)) {
        read_figure(spec, *one);
      } else if (spec.required) {
        reader.fault("a rule of the kind '" + std::string(kind_.name) + "' needs the figure '" +
                     std::string(spec.name) + "'");
      }
    }
    reader.finish();
  }

  void read_settings(const base::Toml& toml) {
    base::TomlReader reader(toml, file_, faults_);
    for (const SettingSpec& spec : kind_.settings) {
      const auto given = reader.maybe_text(spec.name);
      if (given) {
        read_setting(reader, spec, *given);
      } else if (spec.required) {
        reader.fault("a rule of the kind '" + std::string(kind_.name) + "' needs the setting '" +
                     std::string(spec.name) + "'");
      }
    }
    reader.finish();
  }

 private:
  void read_figure(const FigureSpec& spec, const base::Toml& toml) {
    base::TomlReader reader(toml, file_, faults_);
    const std::string value = reader.text("value");
    RuleFigure figure{{}, reader.text("unit"), rule_.authority.confidence, toml.line};
    const auto known = reader.maybe_text("confidence");
    if (known) figure.confidence = read_confidence(reader, *known);
    if (!known && is_own(spec.name)) figure.confidence = Confidence::kOwnRule;
    reader.finish();
    const std::string name = "figure '" + std::string(spec.name) + "'";
    const bool has_unit =
        std::find(spec.units.begin(), spec.units.end(), figure.unit) != spec.units.end();
    if (!has_unit) {
      reader.fault(name + " is in '" + figure.unit + "', accepted: " + listed(spec.units));
    }
    const auto decimal = base::parse_decimal(value);
    if (!decimal) {
      reader.fault(name + ": '" + value + "' is no decimal");
    } else if (has_unit) {
      check_range(reader, name, range_of(spec, figure.unit), *decimal);
    }
    figure.value = decimal ? *decimal : base::Decimal{};
    rule_.figures.emplace(spec.name, std::move(figure));
  }

  /// Open days are counted one by one, so far as a year.
  [[nodiscard]] FigureRange range_of(const FigureSpec& spec, std::string_view unit) const {
    constexpr std::int64_t kOpenDaysMax = 366;
    FigureRange range = spec.range.value_or(range_of_unit(unit));
    if (unit == "d" && rule_.working_days) range.highest = std::min(range.highest, kOpenDaysMax);
    return range;
  }

  static void check_range(base::TomlReader& reader, const std::string& name,
                          const FigureRange& range, base::Decimal value) {
    if (is_in(range, value)) return;
    reader.fault(name + " is '" + base::format_decimal(value) + "', accepted: " + describe(range));
  }

  void read_setting(base::TomlReader& reader, const SettingSpec& spec, const std::string& given) {
    const bool fits = spec.choices.empty() || std::find(spec.choices.begin(), spec.choices.end(),
                                                        given) != spec.choices.end();
    if (!fits) {
      reader.fault("setting '" + std::string(spec.name) + "' is '" + given +
                   "', accepted: " + listed(spec.choices));
    }
    if (spec.word == Word::kDate && !base::parse_date(given)) {
      reader.fault("setting '" + std::string(spec.name) + "' is '" + given +
                   "', accepted: a day (YYYY-MM-DD)");
    }
    check_text(reader, "setting '" + std::string(spec.name) + "'", given, kWordsMax);
    rule_.settings.emplace(spec.name, given);
  }

  const RuleKind& kind_;
  Rule& rule_;
  std::string file_;
  base::FileFaults& faults_;
};

/// Only a container bears words that a pack asks for.
void read_label_words(base::TomlReader& reader, const RuleKind& kind, Rule& rule) {
  const auto words = reader.maybe_text("label_words");
  if (!words) return;
  check_text(reader, "label_words", *words, kLabelWordsMax);
  const std::string_view set = rule.setting("about");
  if ((set.empty() ? kind.about : set) != "container") {
    reader.fault("label_words: accepted only of a rule about a container");
  }
  rule.label_words = *words;
}

void read_by_kind(base::TomlReader& reader, const base::Toml& toml, Rule& rule,
                  base::FileFaults& faults) {
  const RuleKind* kind = find_kind(rule.kind);
  const base::Toml* figures = reader.table("figures");
  const base::Toml* settings = reader.table("settings");
  if (kind == nullptr) {
    reader.fault("there is no kind of rule '" + rule.kind + "', accepted: " + list_kinds());
    return;
  }
  base::Toml none;
  none.line = toml.line;
  KindReader by_kind(*kind, rule, reader.file(), faults);
  rule.settings_line = settings == nullptr ? toml.line : settings->line;
  by_kind.read_figures(figures == nullptr ? none : *figures);
  by_kind.read_settings(settings == nullptr ? none : *settings);
  read_label_words(reader, *kind, rule);
}

Rule read_rule(const base::Toml& toml, const RulePack& pack, base::FileFaults& faults) {
  base::TomlReader reader(toml, pack.file, faults);
  Rule rule;
  rule.line = toml.line;
  rule.authority.rule = read_rule_id(reader, toml);
  rule.authority.pack = pack.id;
  rule.authority.edition = pack.edition;
  rule.authority.digest = pack.digest;
  rule.off = reader.boolean_or("off", false);
  if (rule.off) {
    rule.authority.sentence = read_words(reader, toml, "sentence", kSentenceMax);
    reader.finish();
    return rule;
  }
  rule.kind = reader.text("kind");
  rule.authority.citation = read_words(reader, toml, "citation", kSentenceMax);
  rule.edition = read_words(reader, toml, "edition", kWordsMax);
  rule.authority.sentence = read_words(reader, toml, "sentence", kSentenceMax);
  if (const auto clears = reader.maybe_text("clears")) {
    check_text(reader, "clears", *clears, kSentenceMax);
    rule.authority.clears = *clears;
  }
  rule.authority.confidence = read_confidence(reader, reader.text("confidence"));
  rule.working_days = choose<bool>(reader, "days", reader.text_or("days", "calendar"),
                                   {{"calendar", false}, {"working", true}})
                          .value_or(false);
  for (const base::Toml* one : reader.tables("applies")) {
    rule.applies.push_back(read_condition(*one, pack.file, faults));
  }
  read_by_kind(reader, toml, rule, faults);
  for (const auto& [name, figure] : rule.figures) {
    // A figure of the workshop's own beside a text makes the text no less known.
    if (is_own(name) || figure.confidence == Confidence::kOwnRule) continue;
    rule.authority.confidence = std::max(rule.authority.confidence, figure.confidence);
  }
  reader.finish();
  return rule;
}

void check_ids(const RulePack& pack, base::FileFaults& faults) {
  std::set<std::string> known;
  for (const Rule& rule : pack.rules) {
    if (known.insert(rule.authority.rule).second) continue;
    faults.push_back({pack.file, rule.line, "a second rule '" + rule.authority.rule + "'"});
  }
}

}  // namespace

base::Result<RulePack, base::FileFaults> read_pack(std::string_view bytes,
                                                   const std::string& file) {
  const auto toml = base::parse_toml(bytes, file);
  if (!toml) return toml.error();
  base::FileFaults faults;
  base::TomlReader reader(*toml, file, faults);
  RulePack pack;
  pack.file = file;
  pack.text = bytes;
  pack.digest = base::to_hex(base::sha256(bytes));
  pack.id = read_pack_name(reader, *toml);
  pack.title = read_words(reader, *toml, "title", kTitleMax);
  pack.edition = reader.text("edition");
  pack.remarks = read_words(reader, *toml, "remarks", kRemarksMax);
  if (!base::parse_date(pack.edition)) reader.fault("the edition is no day (YYYY-MM-DD)");
  for (const base::Toml* one : reader.tables("rules")) {
    pack.rules.push_back(read_rule(*one, pack, faults));
  }
  if (pack.rules.empty()) reader.fault("a pack has at least one rule ([[rules]])");
  reader.finish();
  check_ids(pack, faults);
  if (!faults.empty()) return faults;
  return pack;
}

}  // namespace benchwarden::rules
