#include "workshop/chain.h"

#include <algorithm>
#include <utility>

#include "forms/submission.h"

namespace benchwarden::workshop {

base::Result<Chain> chain_of(const book::EntrySource& book, const forms::Catalog& catalog,
                             entries::Entry entry, std::uint64_t before_seq) {
  if (entry.seq >= before_seq) {
    return base::Error{base::ErrorCode::kDamaged,
                       "entry " + std::to_string(before_seq) + " corrects entry " +
                           std::to_string(entry.seq) + ", which is none before it"};
  }
  auto corrections = book.corrections_of(entry.content.id);
  if (!corrections) return corrections.error();
  Chain chain{std::move(entry), {}, {}, false};
  chain.effective = chain.entry.content;
  for (entries::Entry& correction : *corrections) {
    if (correction.seq >= before_seq) break;
    if (forms::strikes_out(correction.content)) {
      chain.struck = true;
    } else {
      chain.effective = forms::merged(catalog, chain.effective, correction.content);
    }
    chain.corrections.push_back(std::move(correction));
  }
  return chain;
}

base::Result<std::vector<std::string>> subjects_of(const book::EntrySource& book,
                                                   const forms::Catalog& catalog,
                                                   const entries::Content& content,
                                                   std::uint64_t before_seq) {
  std::vector<std::string> all = forms::subjects_of(catalog, content);
  if (content.corrects) {
    auto target = book.entry(*content.corrects);
    if (!target) return target.error();
    const auto chain = chain_of(book, catalog, *std::move(target), before_seq);
    if (!chain) return chain.error();
    for (const entries::Content& about : {chain->entry.content, chain->effective,
                                          forms::merged(catalog, chain->effective, content)}) {
      const std::vector<std::string> named = forms::subjects_of(catalog, about);
      all.insert(all.end(), named.begin(), named.end());
    }
  }
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

}  // namespace benchwarden::workshop
