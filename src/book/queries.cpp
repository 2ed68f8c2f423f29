#include "book/queries.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "book/merkle.h"

namespace benchwarden::book {
namespace {

/// SQLite's integers are signed; no book grows beyond them.
std::int64_t clamp(std::uint64_t number) {
  constexpr auto kMax = static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());
  return static_cast<std::int64_t>(std::min(number, kMax));
}

base::Result<std::string> first_blob(StatementInUse& query, const std::string& what) {
  auto row = query->step();
  if (!row.ok()) return row.error();
  if (!*row) return base::Error{base::ErrorCode::kNotFound, what};
  return query->blob(0);
}

/// The leaf of a row that begins with leaf, leaf_hash, seq.
base::Result<std::string> checked_leaf(const sqlite::Statement& row) {
  std::string leaf = row.blob(0);
  if (row.blob(1) == base::as_bytes(hash_leaf(leaf))) return leaf;
  return unlike_its_hash(static_cast<std::uint64_t>(row.integer(2)));
}

base::Result<std::string> only_leaf(StatementInUse& query, const std::string& what) {
  auto row = query->step();
  if (!row.ok()) return row.error();
  if (!*row) return base::Error{base::ErrorCode::kNotFound, what};
  return checked_leaf(*query);
}

base::Result<std::vector<std::string>> all_leaves(StatementInUse& query) {
  std::vector<std::string> leaves;
  for (;;) {
    auto row = query->step();
    if (!row.ok()) return row.error();
    if (!*row) return leaves;
    auto leaf = checked_leaf(*query);
    if (!leaf.ok()) return leaf.error();
    leaves.push_back(*std::move(leaf));
  }
}

/// The statement for a selection. Named parameters keep one place for each limit; the index that
/// narrows most is forced, because SQLite has no statistics on a book that only grows.
std::string selection_sql(const Selection& selection) {
  const bool timed = selection.from.has_value() || selection.until.has_value();
  std::string where = " WHERE e.seq > ?1 AND e.seq <= ?2";
  if (selection.kind) where += " AND e.kind = ?4";
  if (selection.from) where += " AND e.occurred_at_ms >= ?5";
  if (selection.until) where += " AND e.occurred_at_ms < ?6";
  if (selection.subject) {
    return "SELECT e.leaf, e.leaf_hash, e.seq FROM mention m CROSS JOIN entry e ON e.seq = m.seq" +
           where + " AND m.subject = ?7 AND m.seq > ?1 AND m.seq <= ?2 ORDER BY m.seq LIMIT ?3";
  }
  std::string index = " NOT INDEXED";
  if (timed) {
    index = " INDEXED BY entry_by_time";
  } else if (selection.kind) {
    index = " INDEXED BY entry_by_kind";
  }
  return "SELECT leaf, leaf_hash, seq FROM entry WHERE seq IN (SELECT e.seq FROM entry e" + index +
         where + " ORDER BY e.seq LIMIT ?3) ORDER BY seq";
}

}  // namespace

base::Error unlike_its_hash(std::uint64_t seq) {
  return {base::ErrorCode::kDamaged,
          "entry " + std::to_string(seq) + " does not match its leaf hash"};
}

base::Result<std::string> leaf_of(Connection& connection, std::uint64_t seq) {
  auto query = connection.statement("SELECT leaf, leaf_hash, seq FROM entry WHERE seq = ?");
  if (!query.ok()) return query.error();
  (*query)->bind(1, clamp(seq));
  return only_leaf(*query, "there is no entry " + std::to_string(seq));
}

base::Result<std::string> leaf_of(Connection& connection, const base::Uuid& id) {
  auto query = connection.statement("SELECT leaf, leaf_hash, seq FROM entry WHERE id = ?");
  if (!query.ok()) return query.error();
  (*query)->bind_blob(1, bytes_of(id));
  return only_leaf(*query, "there is no entry " + base::format_uuid(id));
}

base::Result<base::Sha256Digest> leaf_hash_of(Connection& connection, std::uint64_t seq) {
  auto query = connection.statement("SELECT leaf_hash FROM entry WHERE seq = ?");
  if (!query.ok()) return query.error();
  (*query)->bind(1, clamp(seq));
  auto hash = first_blob(*query, "there is no entry " + std::to_string(seq));
  if (!hash.ok()) return hash.error();
  return digest_of_blob(*hash);
}

base::Result<std::string> attachment_of(Connection& connection, const base::Sha256Digest& digest) {
  auto query = connection.statement("SELECT bytes FROM attachment WHERE digest = ?");
  if (!query.ok()) return query.error();
  (*query)->bind_blob(1, base::as_bytes(digest));
  auto bytes = first_blob(*query, "there is no attachment " + base::to_hex(digest));
  if (bytes.ok() && base::sha256(*bytes) != digest) {
    return base::Error{base::ErrorCode::kDamaged,
                       "attachment " + base::to_hex(digest) + " does not match its digest"};
  }
  return bytes;
}

base::Result<Book::AttachmentLook> attachment_look(Connection& connection,
                                                   const base::Sha256Digest& digest) {
  constexpr std::size_t kBeginningBytes = 16;
  auto query = connection.statement("SELECT rowid, length(bytes) FROM attachment WHERE digest = ?");
  if (!query.ok()) return query.error();
  auto row = (*query)->bind_blob(1, base::as_bytes(digest)).step();
  if (!row.ok()) return row.error();
  if (!*row) {
    return base::Error{base::ErrorCode::kNotFound,
                       "there is no attachment " + base::to_hex(digest)};
  }
  const std::int64_t rowid = (*query)->integer(0);
  const auto bytes = static_cast<std::uint64_t>((*query)->integer(1));
  auto beginning =
      connection.database().blob_beginning("attachment", "bytes", rowid, kBeginningBytes);
  if (!beginning.ok()) return beginning.error();
  return Book::AttachmentLook{bytes, *std::move(beginning)};
}

base::Result<bool> is_attachment_kept(Connection& connection, const base::Sha256Digest& digest) {
  auto query = connection.statement("SELECT 1 FROM attachment WHERE digest = ?");
  if (!query.ok()) return query.error();
  return (*query)->bind_blob(1, base::as_bytes(digest)).step();
}

base::Result<std::vector<std::string>> leaves_correcting(Connection& connection,
                                                         const base::Uuid& id) {
  auto query = connection.statement(
      "SELECT leaf, leaf_hash, seq FROM entry WHERE corrects = ? ORDER BY seq");
  if (!query.ok()) return query.error();
  (*query)->bind_blob(1, bytes_of(id));
  return all_leaves(*query);
}

base::Result<std::vector<std::string>> leaves_from(Connection& connection, std::uint64_t from_seq,
                                                   std::size_t limit) {
  auto query = connection.statement(
      "SELECT leaf, leaf_hash, seq FROM entry WHERE seq >= ? ORDER BY seq LIMIT ?");
  if (!query.ok()) return query.error();
  (*query)->bind(1, clamp(from_seq)).bind(2, clamp(limit));
  return all_leaves(*query);
}

base::Result<std::vector<std::string>> leaves_selected(Connection& connection,
                                                       const Selection& selection) {
  auto query = connection.statement(selection_sql(selection));
  if (!query.ok()) return query.error();
  sqlite::Statement& statement = **query;
  statement.bind(1, clamp(selection.after_seq))
      .bind(2, clamp(selection.known_at))
      .bind(3, clamp(selection.limit));
  if (selection.kind) statement.bind(4, std::string_view(*selection.kind));
  if (selection.from) statement.bind(5, selection.from->ms);
  if (selection.until) statement.bind(6, selection.until->ms);
  if (selection.subject) statement.bind(7, std::string_view(*selection.subject));
  return all_leaves(*query);
}

}  // namespace benchwarden::book
