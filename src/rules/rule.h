#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/decimal.h"
#include "findings/finding.h"

namespace benchwarden::rules {

/// A figure of a rule, as it stands in its source.
struct RuleFigure {
  base::Decimal value;
  std::string unit;                 ///< of quantities::find_unit, or "months", "years"
  findings::Confidence confidence;  ///< the rule's, where the figure has none of its own
  int line = 0;
};

/// "The attribute `field` of the subject, of its stream or of the workshop is one of `codes`."
/// The code "" stands for an attribute that was never entered.
struct Condition {
  enum class Of { kSubject, kStream, kWorkshop } of = Of::kSubject;
  std::string field;
  std::vector<std::string> codes;
  int line = 0;
};

/// One rule of a pack. Which figures and settings it has is its kind's to say (rule_kind.h).
struct Rule {
  std::string kind;
  findings::Authority authority;   ///< no better known than the least certain of the figures
  std::string edition;             ///< of the text the citation names, in words
  std::vector<Condition> applies;  ///< all must hold
  std::map<std::string, RuleFigure, std::less<>> figures;
  std::map<std::string, std::string, std::less<>> settings;
  std::string label_words;    ///< what the container it is about has to bear; "" for nothing
  bool working_days = false;  ///< days of the rule are those the workshop is open
  bool off = false;           ///< of a pack stacked on top: the rule below it is not to be judged
  int line = 0;
  int settings_line = 0;

  [[nodiscard]] const RuleFigure* figure(std::string_view name) const;
  /// "" where it is not set.
  [[nodiscard]] std::string_view setting(std::string_view name) const;
  /// Who says it where one figure of several was held against: as well known as that one is.
  [[nodiscard]] findings::Authority authority_of(const RuleFigure& figure) const;
};

/// The thresholds of one jurisdiction, or of one workshop.
struct RulePack {
  std::string id;
  std::string title;
  std::string edition;  ///< the day it stands for
  std::string remarks;  ///< what it covers, and that it defers to local rules
  std::vector<Rule> rules;
  std::string file;
  std::string text;    ///< all of it, as it was read
  std::string digest;  ///< SHA-256 of the text, in hex
};

}  // namespace benchwarden::rules
