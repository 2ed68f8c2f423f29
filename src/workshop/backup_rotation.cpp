#include "workshop/backup_rotation.h"

#include <algorithm>
#include <set>
#include <utility>

#include "workshop/backup_manifest.h"

namespace benchwarden::workshop {
namespace {

constexpr base::CivilDate kSomeMonday{1900, 1, 1};
constexpr base::CivilDate kEpoch{1970, 1, 1};
constexpr std::string_view kPartial = ".partial-";

/// Keeps the newest of each of the first `most` groups; backups come newest first.
template <class Group>
void keep_newest(const std::vector<std::pair<base::Instant, std::string>>& newest_first, int most,
                 const Group& group_of, std::set<std::string>& stay) {
  std::set<decltype(group_of(base::Instant{}))> seen;
  for (const auto& [made_at, name] : newest_first) {
    const auto group = group_of(made_at);
    if (seen.contains(group)) continue;
    if (seen.size() == static_cast<std::size_t>(most)) return;
    seen.insert(group);
    stay.insert(name);
  }
}

/// "benchwarden-20261130T104500Z.partial-x7Qp2a", begun more than a day ago.
bool is_abandoned(std::string_view name, base::Instant now) {
  const std::size_t end = name.find(kPartial);
  if (end == std::string_view::npos) return false;
  const auto begun = backup_made_at(name.substr(0, end));
  return begun && begun->ms < now.ms - base::kDayMs;
}

}  // namespace

std::optional<base::Instant> backup_made_at(std::string_view name) {
  constexpr std::string_view kPattern = "benchwarden-YYYYMMDDTHHMMSSZ";
  if (name.size() != kPattern.size()) return std::nullopt;
  const std::string digits(name.substr(kPattern.find('Y')));
  const std::string time = digits.substr(0, 4) + "-" + digits.substr(4, 2) + "-" +
                           digits.substr(6, 5) + ":" + digits.substr(11, 2) + ":" +
                           digits.substr(13);
  const auto made_at = base::parse_rfc3339(time);
  // Whatever else is wrong with it shows here.
  if (!made_at || backup_name(made_at->instant) != name) return std::nullopt;
  return made_at->instant;
}

bool is_backup_of(const book::EntrySource& book, const std::filesystem::path& folder) {
  const auto manifest = read_manifest(folder);
  if (!manifest || backup_name(manifest->made_at) != folder.filename()) return false;
  const auto root = book.root_at(manifest->head.size);
  return root && *root == manifest->head.root;
}

bool was_begun_as_backup(std::string_view name) {
  const std::size_t end = name.find(kPartial);
  return end != std::string_view::npos && backup_made_at(name.substr(0, end));
}

std::vector<std::string> backups_to_remove(const std::vector<std::string>& names,
                                           const BackupsKept& kept, const base::Zone& zone,
                                           base::Instant now) {
  std::vector<std::pair<base::Instant, std::string>> newest_first;
  std::vector<std::string> go;
  for (const std::string& name : names) {
    // One of a time to come was made before the clock was set back: how old it is nobody can say.
    const auto made_at = backup_made_at(name);
    if (made_at && *made_at <= now) newest_first.emplace_back(*made_at, name);
    if (is_abandoned(name, now)) go.push_back(name);
  }
  std::sort(newest_first.rbegin(), newest_first.rend());
  std::set<std::string> stay;
  if (!newest_first.empty()) stay.insert(newest_first.front().second);
  const auto day = [&](base::Instant at) { return zone.date_of(at); };
  const auto week = [&](base::Instant at) {
    return base::days_between(kSomeMonday, zone.date_of(at)) / 7;
  };
  const auto month = [&](base::Instant at) { return zone.month_of(at); };
  keep_newest(newest_first, kept.days, day, stay);
  keep_newest(newest_first, kept.weeks, week, stay);
  keep_newest(newest_first, kept.months, month, stay);
  for (const auto& [made_at, name] : newest_first) {
    if (!stay.contains(name)) go.push_back(name);
  }
  return go;
}

base::Instant last_backup_due(base::Instant now, int hour, const base::Zone& zone) {
  constexpr std::int64_t kHourMs = 3'600'000;
  constexpr std::int64_t kMinuteMs = 60'000;
  const auto on = [&](base::CivilDate day) {
    const std::int64_t wall_ms = base::days_between(kEpoch, day) * base::kDayMs + hour * kHourMs;
    const base::Instant about{zone.start_of(day).ms + hour * kHourMs};
    return base::Instant{wall_ms - zone.local(about).offset_minutes * kMinuteMs};
  };
  const base::CivilDate today = zone.date_of(now);
  return on(today) <= now ? on(today) : on(base::add_days(today, -1));
}

}  // namespace benchwarden::workshop
