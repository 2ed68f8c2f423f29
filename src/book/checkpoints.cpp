#include "book/checkpoints.h"

#include <utility>

#include "book/read_only.h"

namespace benchwarden::book {
namespace {

constexpr std::int64_t kFirstVersionWithThem = 2;

KeptCheckpoint checkpoint_of_row(const sqlite::Statement& row) {
  return {static_cast<std::uint64_t>(row.integer(0)), static_cast<std::uint64_t>(row.integer(1)),
          base::Instant{row.integer(2)}, row.text(3), row.text(4)};
}

base::Result<std::vector<KeptCheckpoint>> rows_of(StatementInUse query) {
  std::vector<KeptCheckpoint> found;
  for (;;) {
    auto row = query->step();
    if (!row.ok()) return row.error();
    if (!*row) return found;
    found.push_back(checkpoint_of_row(*query));
  }
}

}  // namespace

base::Status<> keep_checkpoint(Connection& connection, const KeptCheckpoint& checkpoint) {
  auto insertion = connection.statement(
      "INSERT INTO checkpoint (number, size, signed_at_ms, verifier_key, note) "
      "SELECT (SELECT coalesce(max(number), 0) + 1 FROM checkpoint), ?1, ?2, ?3, ?4 "
      "WHERE NOT EXISTS (SELECT 1 FROM checkpoint WHERE size = ?1 AND note = ?4)");
  if (!insertion.ok()) return insertion.error();
  return (*insertion)
      ->bind(1, static_cast<std::int64_t>(checkpoint.size))
      .bind(2, checkpoint.signed_at.ms)
      .bind(3, std::string_view(checkpoint.verifier_key))
      .bind(4, std::string_view(checkpoint.note))
      .run();
}

base::Result<std::vector<KeptCheckpoint>> checkpoints_after(Connection& connection,
                                                            std::uint64_t number,
                                                            std::size_t limit) {
  const auto version = schema_version(connection);
  if (!version.ok()) return version.error();
  if (*version < kFirstVersionWithThem) return std::vector<KeptCheckpoint>();
  auto query = connection.statement(
      "SELECT number, size, signed_at_ms, verifier_key, note FROM checkpoint WHERE number > ? "
      "ORDER BY number LIMIT ?");
  if (!query.ok()) return query.error();
  (*query)->bind(1, static_cast<std::int64_t>(number)).bind(2, static_cast<std::int64_t>(limit));
  return rows_of(*std::move(query));
}

base::Result<std::optional<KeptCheckpoint>> last_checkpoint(Connection& connection) {
  auto query = connection.statement(
      "SELECT number, size, signed_at_ms, verifier_key, note FROM checkpoint "
      "ORDER BY size DESC, number DESC LIMIT 1");
  if (!query.ok()) return query.error();
  auto found = rows_of(*std::move(query));
  if (!found.ok()) return found.error();
  if (found->empty()) return std::optional<KeptCheckpoint>();
  return std::optional(found->front());
}

}  // namespace benchwarden::book
