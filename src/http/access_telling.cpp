#include "http/access_telling.h"

#include <array>
#include <mutex>
#include <string_view>
#include <utility>

#include "workshop/access_book.h"

namespace benchwarden::http {
namespace {

/// What is counted in access.db, and the field of the day's entry it goes to.
constexpr std::array<std::pair<std::string_view, const char*>, 11> kCounted{{
    {"sign-in", "sign_in_count"},
    {"wrong-pin", "wrong_secret_count"},
    {"unknown-person", "unknown_person_count"},
    {"locked-out", "locked_out_count"},
    {"pin-from-elsewhere", "other_refusal_count"},
    {"no-access", "other_refusal_count"},
    {"wrong-code", "other_refusal_count"},
    {"role", "wrong_role_count"},
    {"host", "foreign_host_count"},
    {"origin", "foreign_origin_count"},
    {"rate", "too_many_count"},
}};

workshop::AccessDay day_of(const access::AccessLog& log) {
  workshop::AccessDay day;
  day.lines = log.lines;
  day.digest = log.digest;
  for (const auto& [what, field] : kCounted) {
    const auto found = log.counts.find(std::string(what));
    if (found != log.counts.end()) day.counts[field] += found->second;
  }
  return day;
}

base::Status<> tell_day(access::Access& access, const workshop::Ports& ports,
                        const base::Zone& zone, base::CivilDate day) {
  const auto log = access.access_log(zone.start_of(day), zone.start_of(base::add_days(day, 1)));
  if (!log) return log.error();
  if (log->counts.empty()) return base::Done{};
  const auto told = workshop::is_day_told(ports, day);
  if (!told) return told.error();
  if (*told) return base::Done{};
  return workshop::tell_access_day(ports, day, day_of(*log));
}

}  // namespace

base::Status<> tell_access_changes(access::Access& access, const workshop::Ports& ports) {
  // One after the other, so that the book has them in their order.
  static std::mutex telling;
  const std::lock_guard turn(telling);
  const auto untold = access.untold_changes();
  if (!untold) return untold.error();
  for (const access::UntoldChange& change : *untold) {
    const auto told = workshop::tell_access_change(
        ports, {change.entry, change.at, change.what, change.by, change.person, change.thing,
                change.role, change.scope, change.until});
    if (!told) return told.error();
    const auto marked = access.mark_told(change.number);
    if (!marked) return marked.error();
  }
  return base::Done{};
}

base::Status<> tell_access_days(access::Access& access, const workshop::Ports& ports,
                                base::CivilDate today) {
  const auto first = access.first_counted();
  if (!first) return first.error();
  if (!*first) return base::Done{};
  const base::Zone zone = workshop::zone_of(*ports.live.view());
  for (base::CivilDate day = zone.date_of(**first); day < today; day = base::add_days(day, 1)) {
    const auto told = tell_day(access, ports, zone, day);
    if (!told) return told.error();
    const auto forgotten = access.forget_counts(zone.start_of(base::add_days(day, 1)));
    if (!forgotten) return forgotten.error();
  }
  return base::Done{};
}

}  // namespace benchwarden::http
