#include "workshop/check_pack.h"

#include <algorithm>
#include <string>

#include "base/text.h"
#include "rules/rule_kind.h"
#include "rules/told.h"
#include "workshop/pack_vocabulary.h"

namespace benchwarden::workshop {
namespace {

using rules::Word;
using Words = std::vector<std::string>;

bool has(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// The classes of the register that a rule is about; none where its kind says nothing of it.
Words classes_of(const rules::Rule& rule, const rules::RuleKind& kind) {
  const std::string_view about = rule.setting("about");
  return rules::listed_words(about.empty() ? kind.about : about);
}

/// Checks one rule and tells every fault of it.
class RuleCheck {
 public:
  RuleCheck(const rules::RulePack& pack, const rules::Rule& rule, const rules::RuleKind& kind,
            const PackVocabulary& words, base::FileFaults& faults)
      : pack_(pack), rule_(rule), kind_(kind), words_(words), faults_(faults) {}

  void run() {
    for (const rules::SettingSpec& spec : kind_.settings) {
      if (!rule_.setting(spec.name).empty()) check_setting(spec);
    }
    for (const rules::Condition& condition : rule_.applies) check_condition(condition);
    check_unit();
  }

 private:
  void fault(int line, const std::string& reason) {
    faults_.push_back({pack_.file, line, "rule '" + rule_.authority.rule + "': " + reason});
  }
  void bad_setting(std::string_view name, const std::string& given, const std::string& accepted) {
    fault(rule_.settings_line,
          "setting '" + std::string(name) + "' is '" + given + "', accepted: " + accepted);
  }

  /// Each of the words parted by commas; one alone where only one may stand.
  void check_words(const rules::SettingSpec& spec, const Words& accepted, bool one) {
    const std::string given(rule_.setting(spec.name));
    const Words words = one ? Words{given} : rules::listed_words(given);
    const bool fits = !words.empty() && std::all_of(words.begin(), words.end(), [&](const auto& w) {
      return has(accepted, w);
    });
    if (!fits) {
      bad_setting(spec.name, given,
                  (one ? "one of " : "one or more of ") + base::join(accepted, ", "));
    }
  }

  void check_setting(const rules::SettingSpec& spec) {
    switch (spec.word) {
      case Word::kAny:
      case Word::kDate:
        return;
      case Word::kHazardCategories:
        return check_words(spec, {"1", "2", "3", "4"}, false);
      case Word::kThing:
        return check_words(spec, words_.things(), true);
      case Word::kThings:
        return check_words(spec, words_.things(), false);
      case Word::kSubject:
        return check_words(spec, words_.subjects(), true);
      case Word::kSubjects:
        return check_words(spec, words_.subjects(), false);
      case Word::kKind:
        return check_words(spec, words_.kinds(), true);
      case Word::kKinds:
        return check_words(spec, words_.kinds(), false);
      case Word::kAttribute:
        return check_field(spec, words_.attribute(rule_.setting(spec.name), about()), "register");
      case Word::kField:
        return check_field(spec, field_named(rule_.setting(spec.name)), where());
      case Word::kCodes:
        return check_codes(spec);
      case Word::kWasteTypes:
        return check_words(spec, waste_types(), false);
      case Word::kForeignTypes:
        return check_foreign(spec);
      case Word::kSuspicions:
        return check_words(spec, codes_of(words_.anywhere("contamination")), false);
    }
  }

  [[nodiscard]] Words about() const { return classes_of(rule_, kind_); }
  [[nodiscard]] Words waste_types() const { return codes_of(words_.attribute("waste_type", {})); }

  /// What a field of the rule is a field of.
  [[nodiscard]] std::string where() const {
    if (!rule_.setting("kind").empty())
      return "kind of entry " + std::string(rule_.setting("kind"));
    if (!rule_.setting("list").empty()) return "list " + std::string(rule_.setting("list"));
    return "register";
  }
  [[nodiscard]] FieldsNamed field_named(std::string_view name) const {
    if (!rule_.setting("kind").empty()) {
      return words_.of_kinds(name, rules::listed_words(rule_.setting("kind")));
    }
    if (rule_.setting("list").empty()) return words_.attribute(name, about());
    FieldsNamed found;
    for (const auto* list : words_.attribute(rule_.setting("list"), about())) {
      if (const auto* column = find_field(list->columns, name)) found.push_back(column);
    }
    return found;
  }

  void check_field(const rules::SettingSpec& spec, const FieldsNamed& found,
                   const std::string& where) {
    if (!found.empty()) return;
    std::string accepted = "a field of the " + where;
    if (where == "register" && !about().empty()) accepted += " for " + base::join(about(), ", ");
    bad_setting(spec.name, std::string(rule_.setting(spec.name)), accepted);
  }

  void check_codes(const rules::SettingSpec& spec) {
    const std::string_view field = rule_.setting(spec.of);
    if (field.empty()) {
      fault(rule_.settings_line, "setting '" + std::string(spec.name) + "' needs the setting '" +
                                     std::string(spec.of) + "'");
      return;
    }
    const FieldsNamed found = field_named(field);
    if (found.empty()) return;  // told of the field
    const Words codes = codes_of(found);
    if (codes.empty()) {
      bad_setting(spec.of, std::string(field), "a field of codes");
      return;
    }
    check_words(spec, codes, false);
  }

  void check_foreign(const rules::SettingSpec& spec) {
    Words accepted = waste_types();
    accepted.emplace_back("others");
    check_words(spec, accepted, false);
  }

  /// Of the classes whose attributes a condition looks at; none for the workshop as a whole, which
  /// has those of `of = "workshop"` alone.
  [[nodiscard]] Words classes_meant(const rules::Condition& condition) const {
    if (condition.of == rules::Condition::Of::kStream) return {"stream"};
    if (condition.of == rules::Condition::Of::kWorkshop) return {"workshop"};
    return about();
  }

  void check_condition(const rules::Condition& condition) {
    const Words classes = classes_meant(condition);
    const FieldsNamed found = words_.attribute(condition.field, classes);
    if (found.empty()) {
      fault(condition.line, "a condition names the field '" + condition.field +
                                "', accepted: a field of the register" +
                                (classes.empty() ? "" : " for " + base::join(classes, ", ")));
      return;
    }
    Words accepted = codes_of(found);
    if (accepted.empty()) return;  // a text: any
    for (const std::string& code : condition.codes) {
      if (code.empty() || has(accepted, code)) continue;
      fault(condition.line, "a condition on '" + condition.field + "' names the code '" + code +
                                "', accepted: " + base::join(accepted, ", ") +
                                ", \"\" (not entered)");
    }
  }

  /// A number that is held against a field is in a unit of that field.
  void check_unit() {
    const rules::RuleFigure* limit = rule_.figure("limit");
    const std::string_view field = rule_.setting("field");
    if (limit == nullptr || field.empty()) return;
    const quantities::Unit* unit = quantities::find_unit(limit->unit);
    for (const forms::FieldDefinition* one : field_named(field)) {
      const bool fits = one->unit != nullptr && unit != nullptr &&
                        (rule_.setting("kind").empty() ? one->unit->id == unit->id
                                                       : one->unit->dimension == unit->dimension);
      if (fits) continue;
      const std::string accepted =
          one->unit == nullptr ? "a field of a quantity" : std::string(one->unit->id);
      fault(limit->line, "figure 'limit' is in '" + limit->unit + "' and the field '" +
                             std::string(field) + "' is not, accepted: " + accepted);
    }
  }

  const rules::RulePack& pack_;
  const rules::Rule& rule_;
  const rules::RuleKind& kind_;
  const PackVocabulary& words_;
  base::FileFaults& faults_;
};

bool is_built_in(const std::vector<rules::RulePack>& packs, const std::string& id) {
  return std::any_of(packs.begin(), packs.end(), [&](const rules::RulePack& pack) {
    return std::any_of(pack.rules.begin(), pack.rules.end(), [&](const rules::Rule& rule) {
      return rule.authority.rule == id && !rule.off;
    });
  });
}

}  // namespace

void check_pack(const rules::RulePack& pack, const forms::Catalog& catalog,
                const std::vector<rules::RulePack>& built_in, base::FileFaults& faults) {
  const PackVocabulary words(catalog);
  for (const rules::Rule& rule : pack.rules) {
    if (const rules::RuleKind* kind = rule.off ? nullptr : rules::find_kind(rule.kind)) {
      RuleCheck(pack, rule, *kind, words, faults).run();
    } else if (rule.off && !is_built_in(built_in, rule.authority.rule)) {
      faults.push_back(
          {pack.file, rule.line,
           "rule '" + rule.authority.rule +
               "' is off and there is none below, accepted: the id of a built-in rule"});
    }
  }
}

}  // namespace benchwarden::workshop
