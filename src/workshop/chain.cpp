#include "workshop/chain.h"

#include <utility>

#include "forms/submission.h"

namespace benchwarden::workshop {

base::Result<Chain> chain_of(const book::Book& book, const forms::Catalog& catalog,
                             entries::Entry entry, std::uint64_t before_seq) {
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

}  // namespace benchwarden::workshop
