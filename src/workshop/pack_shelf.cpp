#include "workshop/pack_shelf.h"

#include <algorithm>
#include <utility>

#include "base/sha256.h"
#include "rules/rule_pack.h"

namespace benchwarden::workshop {
namespace {

base::Error damaged(const std::string& what) { return {base::ErrorCode::kDamaged, what}; }

}  // namespace

const rules::RulePack* PackShelf::built_in(std::string_view id) const {
  const auto found = std::find_if(built_in_.begin(), built_in_.end(),
                                  [&](const rules::RulePack& pack) { return pack.id == id; });
  return found == built_in_.end() ? nullptr : &*found;
}

base::Result<const rules::RulePack*> PackShelf::find(const std::string& digest) {
  const auto own = std::find_if(built_in_.begin(), built_in_.end(),
                                [&](const rules::RulePack& pack) { return pack.digest == digest; });
  if (own != built_in_.end()) return &*own;
  const auto kept = kept_.find(digest);
  if (kept != kept_.end()) return kept->second.get();
  const auto parsed = base::digest_from_hex(digest);
  if (!parsed) return damaged("a rule pack is named by no digest: " + digest);
  const auto text = book_.attachment(*parsed);
  if (!text && text.error().code == base::ErrorCode::kUnavailable) return text.error();
  if (!text) return damaged("the rule pack " + digest + ": " + text.error().detail);
  auto pack = rules::read_pack(*text, "rule pack " + digest);
  if (!pack) return damaged(base::format_faults(pack.error()));
  auto owned = std::make_unique<const rules::RulePack>(*std::move(pack));
  return kept_.emplace(digest, std::move(owned)).first->second.get();
}

base::Result<const rules::RulePack*> PackShelf::pack(const std::string& digest) {
  const std::lock_guard lock(mutex_);
  return find(digest);
}

base::Result<std::shared_ptr<const rules::RuleBook>> PackShelf::stacked(const Digests& digests) {
  const std::lock_guard lock(mutex_);
  const auto known = stacks_.find(digests);
  if (known != stacks_.end()) return known->second;
  std::vector<const rules::RulePack*> packs;
  for (const std::string& digest : digests) {
    const auto pack = find(digest);
    if (!pack) return pack.error();
    packs.push_back(*pack);
  }
  auto book = std::make_shared<const rules::RuleBook>(rules::RuleBook::stacked(packs));
  if (stacks_.size() >= kStacksMax) stacks_.clear();
  return stacks_.emplace(digests, std::move(book)).first->second;
}

}  // namespace benchwarden::workshop
