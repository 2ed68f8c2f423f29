#include "tallies/record_list.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <tuple>

namespace benchwarden::tallies {
namespace {

using Places = RecordList::Places;

bool decides(const Record& record) { return record.outcome != entries::Outcome::kRecorded; }

std::size_t index_from(const Places& places, std::size_t place) {
  if (places.empty() || places.back() < place) return places.size();
  return static_cast<std::size_t>(std::lower_bound(places.begin(), places.end(), place) -
                                  places.begin());
}

void insert(Places& places, std::size_t place) {
  const std::size_t index = index_from(places, place);
  const auto short_place = static_cast<std::uint32_t>(place);
  if (index == places.size()) return places.push_back(short_place);
  places.replace(index, index, {short_place});
}

void erase(Places& places, std::size_t place) {
  const std::size_t index = index_from(places, place);
  if (index < places.size() && places[index] == place) places.replace(index, index + 1, {});
}

/// One is put in at a place: all from there on lie one further.
void move_on(Places& places, std::size_t from) {
  for (std::size_t index = index_from(places, from); index < places.size(); ++index) {
    ++places.at(index);
  }
}

}  // namespace

bool comes_before(const Record& a, const Record& b) {
  return std::tie(a.at, a.seq) < std::tie(b.at, b.seq);
}

const RecordList::Places& RecordList::of_kind(std::string_view kind) const {
  static const Places kNone;
  const auto found = std::find_if(kinds_.begin(), kinds_.end(),
                                  [&](const auto& one) { return one.first == kind; });
  return found == kinds_.end() ? kNone : found->second;
}

RecordList::Places& RecordList::places_of(SharedText kind) {
  const auto found = std::find_if(kinds_.begin(), kinds_.end(),
                                  [&](const auto& one) { return one.first == kind; });
  return found == kinds_.end() ? kinds_.emplace_back(kind, Places()).second : found->second;
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
  insert(places_of(record.kind), place);
  if (decides(record)) insert(deciding_, place);
}

void RecordList::forget(std::size_t place) {
  erase(places_of(records_[place].kind), place);
  erase(deciding_, place);
}

void RecordList::add(const Record& record) {
  if (records_.empty() || !comes_before(record, records_.back())) {
    records_.push_back(record);
    return note(records_.size() - 1);
  }
  const auto after = std::upper_bound(records_.begin(), records_.end(), record, comes_before);
  const auto place = static_cast<std::size_t>(after - records_.begin());
  for (auto& [kind, places] : kinds_) move_on(places, place);
  move_on(deciding_, place);
  records_.replace(place, place, {record});
  note(place);
}

void RecordList::amend(base::Instant at, std::uint64_t seq, const std::vector<Record>& says) {
  auto one = says.begin();
  const auto first = std::partition_point(
      records_.begin(), records_.end(),
      [&](const Record& record) { return std::tie(record.at, record.seq) < std::tie(at, seq); });
  auto place = static_cast<std::size_t>(first - records_.begin());
  for (; place < records_.size(); ++place) {
    const Record& known = records_[place];
    if (known.at != at || known.seq != seq) break;
    if (one == says.end()) {
      records_.at(place).struck = true;
      continue;
    }
    forget(place);
    records_.at(place) = *one++;
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
