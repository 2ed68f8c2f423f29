#include "rules/rule_pack.h"

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <utility>

#include "base/civil_date.h"
#include "base/sha256.h"
#include "base/text.h"
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
    RuleFigure figure{{}, reader.text("unit")};
    reader.finish();
    const auto decimal = base::parse_decimal(value);
    if (!decimal) {
      reader.fault("figure '" + std::string(spec.name) + "': '" + value + "' is no decimal");
    } else {
      figure.value = *decimal;
    }
    if (std::find(spec.units.begin(), spec.units.end(), figure.unit) == spec.units.end()) {
      reader.fault("figure '" + std::string(spec.name) + "' is in '" + figure.unit +
                   "', accepted: " + listed(spec.units));
    }
    rule_.figures.emplace(spec.name, std::move(figure));
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
    rule_.settings.emplace(spec.name, given);
  }

  const RuleKind& kind_;
  Rule& rule_;
  std::string file_;
  base::FileFaults& faults_;
};

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
  by_kind.read_figures(figures == nullptr ? none : *figures);
  by_kind.read_settings(settings == nullptr ? none : *settings);
}

Rule read_rule(const base::Toml& toml, const RulePack& pack, base::FileFaults& faults) {
  base::TomlReader reader(toml, pack.file, faults);
  Rule rule;
  rule.line = toml.line;
  rule.authority.rule = reader.text("id");
  rule.authority.pack = pack.id;
  rule.authority.edition = pack.edition;
  rule.authority.digest = pack.digest;
  rule.off = reader.boolean_or("off", false);
  if (rule.off) {
    rule.authority.sentence = reader.text("sentence");
    reader.finish();
    return rule;
  }
  rule.kind = reader.text("kind");
  rule.authority.citation = reader.text("citation");
  rule.edition = reader.text("edition");
  rule.authority.sentence = reader.text("sentence");
  rule.authority.clears = reader.text_or("clears", "");
  rule.authority.confidence = choose<Confidence>(reader, "confidence", reader.text("confidence"),
                                                 {{"text-seen", Confidence::kTextSeen},
                                                  {"second-hand", Confidence::kSecondHand},
                                                  {"from-memory", Confidence::kFromMemory}})
                                  .value_or(Confidence::kFromMemory);
  rule.working_days = choose<bool>(reader, "days", reader.text_or("days", "calendar"),
                                   {{"calendar", false}, {"working", true}})
                          .value_or(false);
  for (const base::Toml* one : reader.tables("applies")) {
    rule.applies.push_back(read_condition(*one, pack.file, faults));
  }
  read_by_kind(reader, toml, rule, faults);
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
  pack.id = reader.text("pack");
  pack.title = reader.text("title");
  pack.edition = reader.text("edition");
  pack.remarks = reader.text("remarks");
  if (!base::parse_date(pack.edition)) reader.fault("the edition is no day (YYYY-MM-DD)");
  for (const base::Toml* one : reader.tables("rules")) {
    pack.rules.push_back(read_rule(*one, pack, faults));
  }
  reader.finish();
  check_ids(pack, faults);
  if (!faults.empty()) return faults;
  return pack;
}

}  // namespace benchwarden::rules
