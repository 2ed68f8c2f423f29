#include "rules/rule_book.h"

#include <algorithm>
#include <cassert>
#include <tuple>

#include "rules/rule_kind.h"

namespace benchwarden::rules {

RuleBook RuleBook::stacked(const std::vector<const RulePack*>& packs) {
  RuleBook book;
  for (const RulePack* pack : packs) {
    book.packs_.push_back({pack->id, pack->title, pack->edition, pack->remarks, pack->digest});
    for (const Rule& rule : pack->rules) {
      std::erase_if(book.rules_,
                    [&](const Rule& below) { return below.authority.rule == rule.authority.rule; });
      if (!rule.off) book.rules_.push_back(rule);
    }
  }
  return book;
}

const Rule* RuleBook::find(std::string_view id) const {
  const auto found = std::find_if(rules_.begin(), rules_.end(),
                                  [&](const Rule& rule) { return rule.authority.rule == id; });
  return found == rules_.end() ? nullptr : &*found;
}

findings::Judgement judge(const RuleBook& book, const Scene& scene) {
  findings::Judgement said;
  for (const Rule& rule : book.rules()) {
    const RuleKind* kind = find_kind(rule.kind);
    assert(kind != nullptr && kind->judge != nullptr);
    kind->judge(rule, scene, said);
  }
  const auto by_weight = [](const findings::Finding& one) {
    return std::tuple(-static_cast<int>(one.severity), one.since,
                      std::string_view(one.subject.thing_class), std::string_view(one.subject.id),
                      std::string_view(one.authority.rule));
  };
  std::sort(said.findings.begin(), said.findings.end(),
            [&](const auto& a, const auto& b) { return by_weight(a) < by_weight(b); });
  const auto by_day = [](const findings::DueItem& one) {
    return std::tuple(one.day, std::string_view(one.subject.thing_class),
                      std::string_view(one.subject.id), std::string_view(one.authority.rule));
  };
  std::sort(said.due.begin(), said.due.end(),
            [&](const auto& a, const auto& b) { return by_day(a) < by_day(b); });
  return said;
}

}  // namespace benchwarden::rules
