#include "book/read_book.h"

#include <utility>

#include "book/checkpoints.h"
#include "book/queries.h"
#include "book/read_only.h"
#include "book/stored_entries.h"
#include "book/stored_tree.h"

namespace benchwarden::book {

base::Result<ReadBook> ReadBook::open(const std::filesystem::path& folder,
                                      const entries::Vocabulary& vocabulary) {
  auto connection = open_book(folder);
  if (!connection.ok()) return connection.error();
  const auto edge = checked_edge(*connection);
  if (!edge.ok()) return edge.error();
  return ReadBook(*std::move(connection), {edge->size(), edge->root()}, vocabulary);
}

base::Status<> ReadBook::each(const std::function<base::Status<>(const entries::Entry&)>& visit) {
  constexpr std::size_t kPage = 256;
  for (std::uint64_t next = 1; next <= head_.size;) {
    const auto page = read_leaves(leaves_from(connection_, next, kPage), *vocabulary_);
    if (!page.ok()) return page.error();
    if (page->empty()) break;
    for (const entries::Entry& entry : *page) {
      auto visited = visit(entry);
      if (!visited.ok()) return visited;
    }
    next = page->back().seq + 1;
  }
  return base::Done{};
}

base::Result<std::vector<KeptCheckpoint>> ReadBook::checkpoints() {
  return checkpoints_after(connection_, 0, kAllCheckpoints);
}

base::Result<std::string> ReadBook::attachment(const base::Sha256Digest& digest) {
  return attachment_of(connection_, digest);
}

}  // namespace benchwarden::book
