#pragma once

#include <string>
#include <vector>

#include "findings/finding.h"
#include "rules/rule.h"
#include "rules/scene.h"

namespace benchwarden::rules {

/// The packs in force, one on top of the other.
class RuleBook {
 public:
  /// A rule of a later pack takes the place of the one of its id below it, or turns it off.
  static RuleBook stacked(const std::vector<const RulePack*>& packs);

  struct InForce {
    std::string id;
    std::string title;
    std::string edition;
    std::string remarks;
    std::string digest;
  };
  [[nodiscard]] const std::vector<InForce>& packs() const { return packs_; }
  [[nodiscard]] const std::vector<Rule>& rules() const { return rules_; }
  [[nodiscard]] const Rule* find(std::string_view id) const;

 private:
  std::vector<InForce> packs_;
  std::vector<Rule> rules_;
};

/// All that the rules say of the scene. The same scene and rules give the same answer.
findings::Judgement judge(const RuleBook& book, const Scene& scene);

}  // namespace benchwarden::rules
