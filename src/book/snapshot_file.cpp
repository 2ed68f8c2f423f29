#include "book/snapshot_file.h"

#include <string>
#include <system_error>
#include <utility>

#include "book/read_only.h"
#include "book/schema.h"
#include "book/throwaway_file.h"

namespace benchwarden::book {
namespace {

std::optional<Book::Snapshot> read_from(Connection& connection) {
  auto query = connection.statement(
      "SELECT fold_version, size, root, bytes, bytes_hash FROM snapshot WHERE only_one = 1");
  if (!query.ok()) return std::nullopt;
  auto row = (*query)->step();
  if (!row.ok() || !*row) return std::nullopt;
  auto root = digest_of_blob((*query)->blob(2));
  Book::Snapshot snapshot;
  snapshot.fold_version = static_cast<int>((*query)->integer(0));
  snapshot.head.size = static_cast<std::uint64_t>((*query)->integer(1));
  snapshot.bytes = (*query)->blob(3);
  const std::string hash = (*query)->blob(4);
  if (!root.ok() || hash != base::as_bytes(base::sha256(snapshot.bytes))) return std::nullopt;
  snapshot.head.root = *root;
  return snapshot;
}

}  // namespace

base::Result<std::unique_ptr<SnapshotFile>> SnapshotFile::open(
    const std::filesystem::path& folder) {
  auto connection = open_throwaway(folder / "derived.db", derived_schema());
  if (!connection.ok()) return connection.error();
  return std::unique_ptr<SnapshotFile>(new SnapshotFile(*std::move(connection)));
}

base::Status<> SnapshotFile::keep(const Book::Snapshot& snapshot) {
  const std::lock_guard lock(mutex_);
  auto replacement = connection_.statement(
      "INSERT OR REPLACE INTO snapshot (only_one, fold_version, size, root, bytes, bytes_hash) "
      "VALUES (1, ?, ?, ?, ?, ?)");
  if (!replacement.ok()) return replacement.error();
  return (*replacement)
      ->bind(1, std::int64_t{snapshot.fold_version})
      .bind(2, static_cast<std::int64_t>(snapshot.head.size))
      .bind_blob(3, base::as_bytes(snapshot.head.root))
      .bind_blob(4, snapshot.bytes)
      .bind_blob(5, base::as_bytes(base::sha256(snapshot.bytes)))
      .run();
}

std::optional<Book::Snapshot> SnapshotFile::read() {
  const std::lock_guard lock(mutex_);
  return read_from(connection_);
}

std::optional<Book::Snapshot> SnapshotFile::look(const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / "derived.db";
  std::error_code failure;
  if (!std::filesystem::exists(file, failure)) return std::nullopt;
  auto connection = open_read_only(file);
  if (!connection.ok()) return std::nullopt;
  return read_from(*connection);
}

}  // namespace benchwarden::book
