#include "book/accept_end.h"

#include <utility>

#include "book/last_head.h"
#include "book/read_only.h"
#include "book/stored_tree.h"
#include "book/writer.h"
#include "sqlite/folder_lock.h"

namespace benchwarden::book {
namespace {

base::Result<OddEnd> look_at_end(const std::filesystem::path& folder) {
  auto connection = open_book(folder);
  if (!connection.ok()) return connection.error();
  auto edge = checked_edge(*connection);
  if (!edge.ok()) return edge.error();
  OddEnd end{{edge->size(), edge->root()}, std::nullopt, false};
  auto last = LastHeadFile::read(folder);
  if (!last.ok() && last.error().code == base::ErrorCode::kUnavailable) return last.error();
  if (last.ok()) end.expected = *last;
  end.file_missing = last.ok() && !end.expected;
  const bool fits = end.expected ? check_continues(*connection, *end.expected).ok()
                                 : end.file_missing && end.found.size == 0;
  if (fits) {
    return base::Error{base::ErrorCode::kConflict,
                       "the end of the book fits head.txt: there is nothing to accept"};
  }
  return end;
}

}  // namespace

base::Status<> accept_end(const std::filesystem::path& folder,
                          const entries::Vocabulary& vocabulary, const base::Clock& clock,
                          const std::function<Draft(const OddEnd&)>& told) {
  auto lock = sqlite::FolderLock::take(folder);
  if (!lock.ok()) return lock.error();
  const auto end = look_at_end(folder);
  if (!end.ok()) return end.error();
  auto created = LastHeadFile::create(folder, end->found);
  if (!created.ok()) return created;
  auto writer = Writer::open(folder, vocabulary, clock);
  if (!writer.ok()) return writer.error();
  const Draft draft = told(*end);
  TurnQueue::Ticket ticket(draft);
  writer->commit({&ticket});
  if (!ticket.receipt->ok()) return ticket.receipt->error();
  return base::Done{};
}

}  // namespace benchwarden::book
