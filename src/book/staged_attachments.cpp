#include "book/staged_attachments.h"

#include <utility>

#include "book/schema.h"
#include "book/throwaway_file.h"

namespace benchwarden::book {

base::Result<std::unique_ptr<StagedAttachments>> StagedAttachments::open(
    const std::filesystem::path& folder, const base::Clock& clock) {
  auto connection = open_throwaway(folder / "staged.db", staged_schema(), LookedAt::kWhole);
  if (!connection.ok()) return connection.error();
  std::unique_ptr<StagedAttachments> staged(new StagedAttachments(*std::move(connection), clock));
  auto dropped = staged->drop_old();
  if (!dropped.ok()) return dropped.error();
  return staged;
}

base::Result<bool> StagedAttachments::keep(const base::Sha256Digest& digest,
                                           const std::string& bytes) {
  const std::lock_guard lock(mutex_);
  auto dropped = drop_old();
  if (!dropped.ok()) return dropped.error();
  auto there = is_there(digest);
  if (!there.ok()) return there;
  if (!*there) {
    auto room = check_room(bytes.size());
    if (!room.ok()) return room.error();
  }
  // Written anew also when it is there: bytes that were damaged meanwhile are whole again.
  auto replacement = connection_.statement(
      "INSERT OR REPLACE INTO staged (digest, arrived_ms, bytes) VALUES (?, ?, ?)");
  if (!replacement.ok()) return replacement.error();
  auto kept = (*replacement)
                  ->bind_blob(1, base::as_bytes(digest))
                  .bind(2, clock_.now().ms)
                  .bind_blob(3, bytes)
                  .run();
  if (!kept.ok()) return kept.error();
  return *there;
}

base::Result<bool> StagedAttachments::has(const base::Sha256Digest& digest) {
  const std::lock_guard lock(mutex_);
  return is_there(digest);
}

base::Result<std::string> StagedAttachments::read(const base::Sha256Digest& digest) {
  const std::lock_guard lock(mutex_);
  auto query = connection_.statement("SELECT bytes FROM staged WHERE digest = ?");
  if (!query.ok()) return query.error();
  auto row = (*query)->bind_blob(1, base::as_bytes(digest)).step();
  if (!row.ok()) return row.error();
  const std::string name = "attachment " + base::to_hex(digest);
  if (!*row) return base::Error{base::ErrorCode::kNotFound, name + " was not sent in"};
  std::string bytes = (*query)->blob(0);
  if (base::sha256(bytes) != digest) {
    return base::Error{base::ErrorCode::kDamaged, name + " does not match its digest"};
  }
  return bytes;
}

void StagedAttachments::drop(const base::Sha256Digest& digest) {
  const std::lock_guard lock(mutex_);
  auto deletion = connection_.statement("DELETE FROM staged WHERE digest = ?");
  if (!deletion.ok()) return;
  static_cast<void>((*deletion)->bind_blob(1, base::as_bytes(digest)).run().ok());
}

base::Status<> StagedAttachments::drop_old() {
  // Either way: a clock that was set back must not keep them for ever.
  auto deletion = connection_.statement("DELETE FROM staged WHERE abs(?1 - arrived_ms) > ?2");
  if (!deletion.ok()) return deletion.error();
  return (*deletion)->bind(1, clock_.now().ms).bind(2, kKeptForMs).run();
}

base::Result<bool> StagedAttachments::is_there(const base::Sha256Digest& digest) {
  auto query = connection_.statement("SELECT 1 FROM staged WHERE digest = ?");
  if (!query.ok()) return query.error();
  return (*query)->bind_blob(1, base::as_bytes(digest)).step();
}

base::Status<> StagedAttachments::check_room(std::size_t more) {
  auto query =
      connection_.statement("SELECT count(*), coalesce(sum(length(bytes)), 0) FROM staged");
  if (!query.ok()) return query.error();
  auto row = (*query)->step();
  if (!row.ok()) return row.error();
  const std::int64_t count = (*query)->integer(0);
  const std::int64_t bytes = (*query)->integer(1);
  if (count < kCountMax && bytes + static_cast<std::int64_t>(more) <= kBytesMax) {
    return base::Done{};
  }
  return base::Error{base::ErrorCode::kUnavailable,
                     std::to_string(count) + " attachments of " + std::to_string(bytes) +
                         " bytes wait for an entry that names them; accepted: " +
                         std::to_string(kCountMax) + " of " + std::to_string(kBytesMax) +
                         " bytes together. Record their entries first, or wait: they are dropped "
                         "after a day"};
}

}  // namespace benchwarden::book
