#include "book/snapshot_file.h"

#include <cstdint>
#include <string>
#include <system_error>
#include <utility>

#include "book/read_only.h"
#include "book/schema.h"
#include "book/throwaway_file.h"

namespace benchwarden::book {
namespace {

/// None where none is kept; an error where one is and cannot be had. The bytes are read by
/// themselves: SQLite would hold them a second time.
base::Result<std::optional<Book::Snapshot>> read_from(Connection& connection) {
  auto query = connection.statement(
      "SELECT fold_version, size, root, bytes_hash FROM snapshot WHERE only_one = 1");
  if (!query.ok()) return query.error();
  const auto row = (*query)->step();
  if (!row.ok()) return row.error();
  if (!*row) return std::optional<Book::Snapshot>();
  const auto root = digest_of_blob((*query)->blob(2));
  if (!root.ok()) return root.error();
  auto bytes = connection.database().blob_beginning("snapshot", "bytes", 1, SIZE_MAX);
  if (!bytes.ok()) return bytes.error();
  if ((*query)->blob(3) != base::as_bytes(base::sha256(*bytes))) {
    return base::Error{base::ErrorCode::kDamaged, "the snapshot does not match its hash"};
  }
  const auto size = static_cast<std::uint64_t>((*query)->integer(1));
  return std::optional(
      Book::Snapshot{static_cast<int>((*query)->integer(0)), {size, *root}, *std::move(bytes)});
}

}  // namespace

base::Result<std::unique_ptr<SnapshotFile>> SnapshotFile::open(
    const std::filesystem::path& folder) {
  std::unique_ptr<SnapshotFile> file(new SnapshotFile(folder / "derived.db"));
  const auto connected = file->connect();
  if (!connected.ok()) return connected.error();
  return file;
}

base::Status<> SnapshotFile::connect() {
  auto connection = open_throwaway(path_, derived_schema(), LookedAt::kAsItIsRead);
  if (!connection.ok()) return connection.error();
  connection_ = *std::move(connection);
  return base::Done{};
}

base::Status<> SnapshotFile::write(const Book::Snapshot& snapshot) {
  auto replacement = connection_->statement(
      "INSERT OR REPLACE INTO snapshot (only_one, fold_version, size, root, bytes, bytes_hash) "
      "VALUES (1, ?, ?, ?, ?, ?)");
  if (!replacement.ok()) return replacement.error();
  return (*replacement)
      ->bind(1, std::int64_t{snapshot.fold_version})
      .bind(2, static_cast<std::int64_t>(snapshot.head.size))
      .bind_blob(3, base::as_bytes(snapshot.head.root))
      .bind_long_blob(4, snapshot.bytes)
      .bind_blob(5, base::as_bytes(base::sha256(snapshot.bytes)))
      .run();
}

base::Status<> SnapshotFile::keep(const Book::Snapshot& snapshot) {
  const std::lock_guard lock(mutex_);
  if (connection_) {
    const auto written = write(snapshot);
    if (written.ok() || written.error().code == base::ErrorCode::kUnavailable) return written;
    throw_away();
  }
  const auto connected = connect();
  if (!connected.ok()) return connected;
  return write(snapshot);
}

std::optional<Book::Snapshot> SnapshotFile::read() {
  const std::lock_guard lock(mutex_);
  if (!connection_) return std::nullopt;
  auto found = read_from(*connection_);
  if (found.ok()) return *std::move(found);
  if (found.error().code != base::ErrorCode::kUnavailable) throw_away();
  return std::nullopt;
}

void SnapshotFile::throw_away() {
  connection_.reset();  // first: its end would take the log of the file made anew with it
  remove_throwaway(path_);
}

std::optional<Book::Snapshot> SnapshotFile::look(const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / "derived.db";
  std::error_code failure;
  if (!std::filesystem::exists(file, failure)) return std::nullopt;
  auto connection = open_read_only(file);
  if (!connection.ok()) return std::nullopt;
  auto found = read_from(*connection);
  return found.ok() ? *std::move(found) : std::nullopt;
}

}  // namespace benchwarden::book
