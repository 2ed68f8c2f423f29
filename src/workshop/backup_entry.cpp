#include "workshop/backup_entry.h"

#include "tallies/facts.h"
#include "workshop/daemon_draft.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kBackupMade = "backup-made";

base::Json newest_backup_json(const Ports& ports) {
  const auto state = ports.live.view();
  const auto& records = state->records("", kBackupMade);
  if (records.empty()) return nullptr;
  const tallies::Record& newest = records.back();  // in order of time; they are not corrected
  const base::Zone zone = zone_of(*state);
  const int days = base::days_between(zone.date_of(newest.at), zone.date_of(ports.clock.now()));
  return base::JsonObject{{"entry", std::uint64_t{newest.seq}},
                          {"made_at", base::format_rfc3339(zone.local(newest.at))},
                          {"days_ago", days}};
}

}  // namespace

base::Result<book::Receipt> record_backup(const Ports& ports, const Backup& made) {
  const BackupManifest& manifest = made.manifest;
  book::Draft draft = daemon_draft(kBackupMade, ports.definitions.catalog, manifest.made_at);
  const auto size = static_cast<std::int64_t>(manifest.head.size) * 1000;
  draft.content.fields = {
      {"book_root", entries::Text{base::to_hex(manifest.head.root)}},
      {"book_size", quantities::Quantity{base::Decimal{size}, quantities::find_unit("1")}},
      {"manifest_digest", entries::Text{base::to_hex(made.digest)}}};
  return ports.book.append(draft);
}

base::Json show_backups(const Ports& ports, const BackupSchedule& schedule) {
  base::Json failure = nullptr;
  if (schedule.failure) {
    failure = base::JsonObject{{"at", base::format_rfc3339_utc(schedule.failure->at)},
                               {"detail", schedule.failure->detail}};
  }
  return base::JsonObject{{"scheduled", schedule.scheduled},
                          {"newest", newest_backup_json(ports)},
                          {"failure", std::move(failure)}};
}

}  // namespace benchwarden::workshop
