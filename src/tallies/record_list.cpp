#include "tallies/record_list.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <tuple>

namespace benchwarden::tallies {
namespace {

using Places = RecordList::Places;

bool decides(const Record& record) { return record.outcome != entries::Outcome::kRecorded; }

void insert(Places& places, std::size_t place) {
  places.insert(std::lower_bound(places.begin(), places.end(), place),
                static_cast<std::uint32_t>(place));
}

void erase(Places& places, std::size_t place) {
  const auto found = std::lower_bound(places.begin(), places.end(), place);
  if (found != places.end() && *found == place) places.erase(found);
}

/// One is put in at a place: all from there on lie one further.
void move_on(Places& places, std::size_t from) {
  for (auto place = std::lower_bound(places.begin(), places.end(), from); place != places.end();
       ++place) {
    ++*place;
  }
}

}  // namespace

bool comes_before(const Record& a, const Record& b) {
  return std::tie(a.at, a.seq) < std::tie(b.at, b.seq);
}

const RecordList::Places& RecordList::of_kind(std::string_view kind) const {
  static const Places kNone;
  const auto found = kinds_.find(kind);
  return found == kinds_.end() ? kNone : found->second;
}

std::size_t RecordList::count_before(const Places& places, base::Instant until) const {
  const auto end = std::partition_point(places.begin(), places.end(), [&](std::uint32_t place) {
    return records_[place].at < until;
  });
  return static_cast<std::size_t>(end - places.begin());
}

void RecordList::note(std::size_t place) {
  assert(place < std::numeric_limits<std::uint32_t>::max());
  const Record& record = records_[place];
  auto known = kinds_.find(std::string_view(record.kind));
  if (known == kinds_.end()) known = kinds_.emplace(std::string(record.kind), Places()).first;
  insert(known->second, place);
  if (decides(record)) insert(deciding_, place);
}

void RecordList::forget(std::size_t place) {
  erase(kinds_.find(std::string_view(records_[place].kind))->second, place);
  erase(deciding_, place);
}

void RecordList::add(const Record& record) {
  const bool last = records_.empty() || !comes_before(record, records_.back());
  const auto after = last
                         ? records_.end()
                         : std::upper_bound(records_.begin(), records_.end(), record, comes_before);
  const auto place = static_cast<std::size_t>(after - records_.begin());
  if (!last) {
    for (auto& [kind, places] : kinds_) move_on(places, place);
    move_on(deciding_, place);
  }
  records_.insert(after, record);
  note(place);
}

void RecordList::amend(base::Instant at, std::uint64_t seq, const std::vector<Record>& says) {
  auto one = says.begin();
  const auto first = std::partition_point(
      records_.begin(), records_.end(),
      [&](const Record& record) { return std::tie(record.at, record.seq) < std::tie(at, seq); });
  auto place = static_cast<std::size_t>(first - records_.begin());
  for (; place < records_.size(); ++place) {
    Record& known = records_[place];
    if (known.at != at || known.seq != seq) break;
    known.struck = one == says.end();
    if (known.struck) continue;
    forget(place);
    known = *one++;
    note(place);
  }
  for (; one != says.end(); ++one) add(*one);
}

bool in_service_before(const RecordList& records, base::Instant at) {
  const RecordList::Places& deciding = records.deciding();
  for (std::size_t left = records.count_before(deciding, at); left > 0; --left) {
    const Record& record = records[deciding[left - 1]];
    if (!record.struck) return record.outcome == entries::Outcome::kPassed;
  }
  return true;
}

}  // namespace benchwarden::tallies
