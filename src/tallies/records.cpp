#include "tallies/records.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <variant>

#include "tallies/bytes.h"
#include "tallies/fields_bytes.h"

namespace benchwarden::tallies {
namespace {

/// What one effect tells, of which thing.
struct Saying {
  Records::ThingKey about;
  entries::Outcome outcome = entries::Outcome::kRecorded;
  entries::Told told;
};

Saying saying(const entries::Checks& checks) {
  return {{checks.thing_class, checks.thing}, checks.outcome, checks.told};
}

Saying saying(const entries::Notes& notes) {
  if (notes.thing.empty()) return {{"", notes.told.kind}, {}, notes.told};
  return {{notes.thing_class, notes.thing}, {}, notes.told};
}

std::map<Records::ThingKey, std::vector<Saying>> sayings(const entries::Effects& effects) {
  std::map<Records::ThingKey, std::vector<Saying>> found;
  const auto add = [&](Saying one) { found[one.about].push_back(std::move(one)); };
  for (const entries::Effect& effect : effects) {
    if (const auto* checks = std::get_if<entries::Checks>(&effect)) add(saying(*checks));
    if (const auto* notes = std::get_if<entries::Notes>(&effect)) add(saying(*notes));
  }
  return found;
}

bool is_before(const Record& a, const Record& b) {
  return a.at != b.at ? a.at < b.at : a.seq < b.seq;
}

void place(RecordList& records, Record record) {
  const auto after = std::upper_bound(records.begin(), records.end(), record, is_before);
  records.insert(after, std::move(record));
}

void amend_list(RecordList& records, base::Instant at, std::uint64_t seq,
                const std::vector<Saying>& says) {
  auto one = says.begin();
  auto known = std::lower_bound(records.begin(), records.end(), Record(at, seq, {}, {}), is_before);
  for (; known != records.end() && known->at == at && known->seq == seq; ++known) {
    known->struck = one == says.end();
    if (known->struck) continue;
    *known = Record(at, seq, one->outcome, one->told);
    ++one;
  }
  for (; one != says.end(); ++one) place(records, Record(at, seq, one->outcome, one->told));
}

bool decided_in_service(RecordList::const_reverse_iterator newest,
                        RecordList::const_reverse_iterator oldest) {
  const auto decided = std::find_if(newest, oldest, [](const Record& record) {
    return !record.struck && record.outcome != entries::Outcome::kRecorded;
  });
  return decided == oldest || decided->outcome == entries::Outcome::kPassed;
}

}  // namespace

Record::Record(base::Instant when, std::uint64_t number, entries::Outcome decided,
               const entries::Told& told)
    : at(when), seq(number), outcome(decided), kind(told.kind) {
  ByteWriter writer;
  write_fields(writer, told.fields);
  packed_ = writer.bytes();
}

entries::Fields Record::fields() const {
  ByteReader reader(packed_);
  return read_fields(reader);
}

void Records::post(base::Instant at, std::uint64_t seq, const entries::Checks& checks) {
  place(records_[checks.thing_class][checks.thing], Record(at, seq, checks.outcome, checks.told));
}

void Records::post(base::Instant at, std::uint64_t seq, const entries::Notes& notes) {
  const Saying one = saying(notes);
  place(records_[one.about.thing_class][one.about.id], Record(at, seq, one.outcome, one.told));
}

std::vector<Records::ThingKey> Records::amend(base::Instant at, std::uint64_t seq,
                                              const entries::Effects& before,
                                              const entries::Effects& after) {
  auto says = sayings(after);
  for (const auto& [thing, said] : sayings(before)) says[thing];
  std::vector<ThingKey> touched;
  for (const auto& [thing, now] : says) {
    amend_list(records_[thing.thing_class][thing.id], at, seq, now);
    touched.push_back(thing);
  }
  return touched;
}

const Records::ById& Records::of_class(std::string_view thing_class) const {
  static const ById kNone;
  const auto found = records_.find(thing_class);
  return found == records_.end() ? kNone : found->second;
}

const RecordList& Records::about(std::string_view thing_class, std::string_view id) const {
  static const RecordList kNone;
  const ById& by_id = of_class(thing_class);
  const auto found = by_id.find(id);
  return found == by_id.end() ? kNone : found->second;
}

bool Records::in_service(std::string_view thing_class, std::string_view id) const {
  const RecordList& all = about(thing_class, id);
  return decided_in_service(all.rbegin(), all.rend());
}

bool in_service_before(const RecordList& records, base::Instant at) {
  const auto end = std::partition_point(records.begin(), records.end(),
                                        [&](const Record& record) { return record.at < at; });
  return decided_in_service(std::make_reverse_iterator(end), records.rend());
}

void Records::write_record(ByteWriter& writer, const Record& record) {
  writer.signed_number(record.at.ms);
  writer.number(record.seq);
  writer.number(static_cast<std::uint64_t>(record.outcome) * 2 + (record.struck ? 1 : 0));
  writer.text(record.kind);
  writer.text(record.packed_);
}

Record Records::read_record(ByteReader& reader) {
  constexpr auto kCodeMax = static_cast<std::uint64_t>(entries::Outcome::kWithdrawn) * 2 + 1;
  Record record;
  record.at.ms = reader.signed_number();
  record.seq = reader.number();
  const std::uint64_t code = reader.number_up_to(kCodeMax);
  record.outcome = static_cast<entries::Outcome>(code / 2);
  record.struck = code % 2 == 1;
  record.kind = reader.text();
  record.packed_ = reader.text();
  ByteReader inside(record.packed_);
  read_fields(inside);
  if (inside.failed() || !inside.at_end()) reader.fail();
  return record;
}

RecordList Records::read_list(ByteReader& reader) {
  RecordList records;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    Record record = read_record(reader);
    if (!records.empty() && is_before(record, records.back())) reader.fail();
    records.push_back(std::move(record));
  }
  return records;
}

void Records::write(ByteWriter& writer) const {
  writer.number(records_.size());
  for (const auto& [thing_class, by_id] : records_) {
    writer.text(thing_class);
    writer.number(by_id.size());
    for (const auto& [id, records] : by_id) {
      writer.text(id);
      writer.number(records.size());
      for (const Record& record : records) write_record(writer, record);
    }
  }
}

Records Records::read(ByteReader& reader) {
  Records result;
  const std::size_t classes = reader.count();
  for (std::size_t i = 0; i < classes && !reader.failed(); ++i) {
    std::string thing_class = reader.text();
    ById by_id;
    const std::size_t ids = reader.count();
    for (std::size_t j = 0; j < ids && !reader.failed(); ++j) {
      std::string id = reader.text();
      if (!by_id.empty() && id <= by_id.rbegin()->first) reader.fail();
      by_id.insert_or_assign(std::move(id), read_list(reader));
    }
    if (!result.records_.empty() && thing_class <= result.records_.rbegin()->first) reader.fail();
    result.records_.insert_or_assign(std::move(thing_class), std::move(by_id));
  }
  return result;
}

}  // namespace benchwarden::tallies
