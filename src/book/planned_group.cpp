#include "book/planned_group.h"

#include <algorithm>
#include <utility>

#include "book/queries.h"
#include "book/stored_tree.h"

namespace benchwarden::book {
namespace {

std::vector<std::string> sorted_once(std::vector<std::string> subjects) {
  std::sort(subjects.begin(), subjects.end());
  subjects.erase(std::unique(subjects.begin(), subjects.end()), subjects.end());
  return subjects;
}

std::optional<base::Error> refusal(const Draft& draft) {
  const auto invalid = [](std::string detail) {
    return base::Error{base::ErrorCode::kInvalid, std::move(detail)};
  };
  if (draft.content.kind.empty() || draft.content.kind.size() > 40) {
    return invalid("a kind is named with 1 to 40 bytes");
  }
  if (draft.subjects.size() > kSubjectsMax) return invalid("too many subjects");
  for (const std::string& subject : draft.subjects) {
    const bool named = !subject.empty() && subject.size() <= kSubjectBytesMax;
    if (!named || subject.find('\n') != std::string::npos) {
      return invalid("a subject is named with 1 to 100 bytes on one line: " + subject);
    }
  }
  return std::nullopt;
}

base::Error conflict(std::uint64_t seq) {
  return {base::ErrorCode::kConflict,
          "the id belongs to entry " + std::to_string(seq) + ", which says something else"};
}

/// nullopt when every attachment the draft names is kept or waits to be.
base::Result<std::optional<base::Error>> attachment_fault(Connection& connection,
                                                          StagedAttachments& staged,
                                                          const Draft& draft) {
  for (const std::string& name : draft.content.attachments) {
    auto digest = base::digest_from_hex(name);
    if (!digest.ok()) return std::optional(digest.error());
    auto known = is_attachment_kept(connection, *digest);
    if (known.ok() && !*known) known = staged.has(*digest);
    if (!known.ok()) return known.error();
    if (!*known) {
      return std::optional(
          base::Error{base::ErrorCode::kInvalid, "attachment " + name + " is not kept"});
    }
  }
  return std::optional<base::Error>();
}

}  // namespace

base::Sha256Digest hash_subjects(const std::vector<std::string>& sorted_subjects) {
  std::string joined;
  for (const std::string& subject : sorted_subjects) joined.append(subject).append("\n");
  return base::sha256(joined);
}

base::Status<> PlannedGroup::add(TurnQueue::Ticket& ticket) {
  auto stored = answer_if_stored(ticket);
  if (!stored.ok()) return stored.error();
  if (*stored || promise_if_planned(ticket)) return base::Done{};
  if (auto fault = refusal(*ticket.draft)) {
    ticket.receipt = *std::move(fault);
    return base::Done{};
  }
  auto fault = attachment_fault(connection_, staged_, *ticket.draft);
  if (!fault.ok()) return fault.error();
  if (fault->has_value()) {
    ticket.receipt = **fault;
    return base::Done{};
  }
  plan(ticket);
  return base::Done{};
}

base::Result<bool> PlannedGroup::answer_if_stored(TurnQueue::Ticket& ticket) {
  auto query = connection_.statement("SELECT seq, leaf_hash, leaf FROM entry WHERE id = ?");
  if (!query.ok()) return query.error();
  auto row = (*query)->bind_blob(1, bytes_of(ticket.draft->content.id)).step();
  if (!row.ok()) return row.error();
  if (!*row) return false;
  const auto seq = static_cast<std::uint64_t>((*query)->integer(0));
  auto leaf_hash = digest_of_blob((*query)->blob(1));
  const std::string leaf = (*query)->blob(2);
  auto recorded = entries::read_leaf(leaf, vocabulary_);
  if (!leaf_hash.ok()) {
    ticket.receipt = leaf_hash.error();
  } else if (hash_leaf(leaf) != *leaf_hash) {
    ticket.receipt = unlike_its_hash(seq);
  } else if (!recorded.ok()) {
    ticket.receipt = recorded.error();
  } else if (recorded->content != ticket.draft->content) {
    ticket.receipt = conflict(seq);
  } else {
    ticket.receipt = Receipt{seq, recorded->recorded_at, *leaf_hash, true};
  }
  return true;
}

bool PlannedGroup::promise_if_planned(TurnQueue::Ticket& ticket) {
  const auto found = row_of_id_.find(ticket.draft->content.id);
  if (found == row_of_id_.end()) return false;
  const PlannedRow& row = rows_[found->second];
  if (row.entry.content == ticket.draft->content) {
    promises_.push_back({&ticket, {row.entry.seq, row.entry.recorded_at, row.leaf_hash, true}});
  } else {
    ticket.receipt = conflict(row.entry.seq);
  }
  return true;
}

void PlannedGroup::plan(TurnQueue::Ticket& ticket) {
  PlannedRow row;
  row.ticket = &ticket;
  // The clock is stored as it was read, even when it was set back since the last entry: the order
  // of the book is the numbers', not the clock's.
  row.entry = {ticket.draft->content, ticket.draft->signature, edge_.size() + 1,
               ticket.draft->recorded_at.value_or(clock_.now())};
  row.leaf = entries::write_leaf(row.entry);
  if (row.leaf.size() > kLeafBytesMax) {
    ticket.receipt = base::Error{base::ErrorCode::kInvalid, "the entry is longer than 65536 bytes"};
    return;
  }
  row.leaf_hash = hash_leaf(row.leaf);
  row.interior = interior_bytes(edge_.append(row.leaf_hash));
  row.subjects = sorted_once(ticket.draft->subjects);
  promises_.push_back({&ticket, {row.entry.seq, row.entry.recorded_at, row.leaf_hash, false}});
  row_of_id_.emplace(row.entry.content.id, rows_.size());
  rows_.push_back(std::move(row));
}

void PlannedGroup::settle() {
  for (const Promise& promise : promises_) promise.ticket->receipt = promise.receipt;
}

}  // namespace benchwarden::book
