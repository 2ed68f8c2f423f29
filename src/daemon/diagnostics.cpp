#include "daemon/diagnostics.h"

#include <array>
#include <filesystem>
#include <system_error>
#include <utility>

#include "daemon/own_process.h"
#include "http/library_versions.h"
#include "workshop/backup_entry.h"

namespace benchwarden::daemon {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

Json number_or_null(const std::optional<std::uint64_t>& number) {
  return number ? Json(*number) : Json(nullptr);
}

/// Of files that are part of the data folder, by name.
JsonArray file_sizes(const std::filesystem::path& folder) {
  constexpr std::array<const char*, 6> kFiles{"book.db",       "book.db-wal", "access.db",
                                              "access.db-wal", "derived.db",  "staged.db"};
  JsonArray sizes;
  for (const char* name : kFiles) {
    std::error_code failure;
    const auto bytes = std::filesystem::file_size(folder / name, failure);
    if (!failure) sizes.push_back(JsonObject{{"name", name}, {"bytes", std::uint64_t{bytes}}});
  }
  return sizes;
}

JsonObject program() {
  http::LibraryVersions libraries = http::library_versions();
  return {{"version", BENCHWARDEN_VERSION},
          {"compiler", __VERSION__},
          {"openssl", std::move(libraries.openssl)},
          {"poco", std::move(libraries.poco)}};
}

JsonObject log_json(const Log& log) {
  const auto counts = log.counts();
  std::vector<Json> recent = log.recent();
  return {{"errors", counts[0]},
          {"warnings", counts[1]},
          {"notices", counts[2]},
          {"recent", JsonArray(std::move(recent))}};
}

}  // namespace

JsonObject Diagnostics::machine() const {
  const OwnProcess own = own_process();
  std::error_code failure;
  const auto space = std::filesystem::space(config_.data_folder, failure);
  const auto now = ports_.clock.now();
  const base::Zone zone = workshop::zone_of(*ports_.live.view());
  return {{"system", own.system},
          {"now", base::format_rfc3339(zone.local(now))},
          {"zone", zone.name()},
          {"started_at", base::format_rfc3339(zone.local(started_at_))},
          {"resident_bytes", number_or_null(own.resident_bytes)},
          {"threads", number_or_null(own.threads)},
          {"open_files", number_or_null(own.open_files)},
          {"open_files_max", number_or_null(own.open_files_max)},
          {"disk_free_bytes", failure ? Json(nullptr) : Json(std::uint64_t{space.available})},
          {"disk_bytes", failure ? Json(nullptr) : Json(std::uint64_t{space.capacity})}};
}

JsonObject Diagnostics::book() const {
  const book::TreeHead head = ports_.book.head();
  Json last = nullptr;
  if (head.size > 0) {
    if (const auto entry = ports_.book.entry(head.size)) {
      last = base::format_rfc3339(workshop::zone_of(*ports_.live.view()).local(entry->recorded_at));
    }
  }
  return {{"entries", head.size},
          {"root", base::to_hex(head.root)},
          {"last_recorded_at", std::move(last)},
          {"tallied", ports_.live.view()->size()},
          {"fold_version", tallies::kFoldVersion},
          {"files", file_sizes(config_.data_folder)}};
}

JsonObject Diagnostics::requests() const {
  const RequestCounts::Told told = requests_.told();
  const base::Zone zone = workshop::zone_of(*ports_.live.view());
  Json slowest = nullptr;
  if (told.slowest.status != 0) {
    slowest = JsonObject{{"method", told.slowest.method},
                         {"path", told.slowest.pattern},
                         {"status", told.slowest.status},
                         {"ms", std::int64_t{told.slowest.duration.count() / 1000}},
                         {"at", base::format_rfc3339(zone.local(told.slowest_at))}};
  }
  return {{"succeeded", told.by_hundred[2] + told.by_hundred[3]},
          {"refused", told.by_hundred[4]},
          {"failed", told.by_hundred[5]},
          {"slowest", std::move(slowest)}};
}

JsonObject Diagnostics::connections() const {
  const http::ServerCounters counters = front_.counters();
  const http::GuardCounters& guard = counters.guard;
  return {{"admitted", guard.admitted},
          {"refused", guard.refused_full + guard.refused_peer},
          {"cut", guard.cut_awaiting + guard.cut_body + guard.cut_sending + guard.cut_for_others},
          {"broken", counters.library_faults}};
}

Json Diagnostics::told() const {
  return JsonObject{
      {"program", program()},   {"machine", machine()},         {"book", book()},
      {"requests", requests()}, {"connections", connections()}, {"log", log_json(log_)}};
}

}  // namespace benchwarden::daemon
