// A rule pack of a workshop's own. Whatever comes in, a fault names its line and its reason; one
// without a fault judges the book, and a finding has a rule and something to say.
#include <algorithm>

#include "fuzz/busy_workshop.h"
#include "fuzz/targets.h"
#include "rules/rule_book.h"
#include "rules/rule_pack.h"

namespace benchwarden::fuzz {
namespace {

std::string fault_of(const base::FileFaults& faults, std::string_view text) {
  if (faults.empty()) return "refused without a fault";
  const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
  for (const base::FileFault& fault : faults) {
    if (fault.reason.empty()) return "a fault without a reason";
    if (fault.line < 0 || fault.line > lines) return "a fault in no line of the file";
  }
  return "";
}

findings::Judgement judged(const rules::RulePack& pack) {
  static const tallies::State state = *busy_workshop().ports().live.view();
  static const rules::Scene scene(state, busy_workshop().clock.now(), workshop::zone_of(state));
  return rules::judge(rules::RuleBook::stacked({&pack}), scene);
}

}  // namespace

std::string pack_fault(std::string_view input) {
  const auto pack = rules::read_pack(input, "fuzz.toml");
  if (!pack) return fault_of(pack.error(), input);
  for (const findings::Finding& one : judged(*pack).findings) {
    if (one.authority.rule.empty() || one.says.empty()) return "a finding that says nothing";
  }
  return "";
}

}  // namespace benchwarden::fuzz
