#include "tallies/records.h"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <utility>
#include <variant>

#include "tallies/bytes.h"
#include "tallies/text_table.h"

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

std::vector<Record> recorded(base::Instant at, std::uint64_t seq, const std::vector<Saying>& says) {
  std::vector<Record> records;
  records.reserve(says.size());
  for (const Saying& one : says) records.emplace_back(at, seq, one.outcome, one.told);
  return records;
}

constexpr auto kRecordCodeMax = static_cast<std::uint64_t>(entries::Outcome::kWithdrawn) * 2 + 1;
constexpr std::uint64_t kSeqMax = std::numeric_limits<std::uint32_t>::max();

/// The texts that records refer to.
struct TextsToWrite {
  WrittenTexts kinds;
  WrittenTexts packed;
};
struct TextsRead {
  ReadTexts kinds;
  ReadTexts packed;
};

/// Times and numbers as the difference from the record before, wrapping, so that any value fits.
void write_record(ByteWriter& writer, const Record& record, base::Instant at, std::uint64_t seq,
                  const TextsToWrite& texts) {
  writer.signed_number(static_cast<std::int64_t>(static_cast<std::uint64_t>(record.at.ms) -
                                                 static_cast<std::uint64_t>(at.ms)));
  writer.signed_number(static_cast<std::int64_t>(record.seq - seq));
  writer.number(static_cast<std::uint64_t>(record.outcome) * 2 + (record.struck ? 1 : 0));
  writer.number(texts.kinds.place(record.kind));
  writer.number(texts.packed.place(record.packed()));
}

Record read_record(ByteReader& reader, base::Instant at, std::uint64_t seq, TextsRead& texts) {
  at.ms = static_cast<std::int64_t>(static_cast<std::uint64_t>(at.ms) +
                                    static_cast<std::uint64_t>(reader.signed_number()));
  seq += static_cast<std::uint64_t>(reader.signed_number());
  if (seq > kSeqMax) reader.fail();
  const std::uint64_t code = reader.number_up_to(kRecordCodeMax);
  const SharedText kind = texts.kinds.next(reader);
  Record record(at, seq, kind, texts.packed.next(reader));
  record.outcome = static_cast<entries::Outcome>(code / 2);
  record.struck = code % 2 == 1;
  return record;
}

void write_told(ByteWriter& writer, const RecordList& records, const TextsToWrite& texts) {
  writer.number(records.size());
  base::Instant at;
  std::uint64_t seq = 0;
  for (const Record& record : records) {
    write_record(writer, record, at, seq, texts);
    at = record.at;
    seq = record.seq;
  }
}

RecordList read_told(ByteReader& reader, TextsRead& texts) {
  RecordList records;
  base::Instant at;
  std::uint64_t seq = 0;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count; ++i) {
    const Record record = read_record(reader, at, seq, texts);
    const bool ordered = records.empty() || !comes_before(record, records.back());
    if (!ordered) reader.fail();
    if (reader.failed()) break;
    records.add(record);
    at = record.at;
    seq = record.seq;
  }
  return records;
}

TextsRead read_texts(ByteReader& reader) {
  TextsRead texts{ReadTexts(reader), ReadTexts(reader)};
  const auto& packed = texts.packed.all();
  if (!std::all_of(packed.begin(), packed.end(), Record::is_packed)) reader.fail();
  return texts;
}

}  // namespace

void Records::post(base::Instant at, std::uint64_t seq, const entries::Checks& checks) {
  records_[checks.thing_class][checks.thing].add(Record(at, seq, checks.outcome, checks.told));
}

void Records::post(base::Instant at, std::uint64_t seq, const entries::Notes& notes) {
  const Saying one = saying(notes);
  records_[one.about.thing_class][one.about.id].add(Record(at, seq, one.outcome, one.told));
}

std::vector<Records::ThingKey> Records::amend(base::Instant at, std::uint64_t seq,
                                              const entries::Effects& before,
                                              const entries::Effects& after) {
  auto says = sayings(after);
  for (const auto& [thing, said] : sayings(before)) says[thing];
  std::vector<ThingKey> touched;
  for (const auto& [thing, now] : says) {
    records_[thing.thing_class][thing.id].amend(at, seq, recorded(at, seq, now));
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
  return in_service_before(about(thing_class, id), base::Instant{INT64_MAX});
}

void Records::write(ByteWriter& writer) const {
  TextsToWrite texts;
  for (const auto& [thing_class, by_id] : records_) {
    for (const auto& [id, records] : by_id) {
      for (const Record& record : records) {
        texts.kinds.add(record.kind);
        texts.packed.add(record.packed());
      }
    }
  }
  texts.kinds.write(writer);
  texts.packed.write(writer);
  writer.number(records_.size());
  for (const auto& [thing_class, by_id] : records_) {
    writer.text(thing_class);
    writer.number(by_id.size());
    for (const auto& [id, records] : by_id) {
      writer.text(id);
      write_told(writer, records, texts);
    }
  }
}

Records Records::read(ByteReader& reader) {
  Records result;
  TextsRead texts = read_texts(reader);
  const std::size_t classes = reader.count();
  for (std::size_t i = 0; i < classes && !reader.failed(); ++i) {
    std::string thing_class = reader.text();
    ById by_id;
    const std::size_t ids = reader.count();
    for (std::size_t j = 0; j < ids && !reader.failed(); ++j) {
      std::string id = reader.text();
      if (!by_id.empty() && id <= by_id.rbegin()->first) reader.fail();
      by_id.insert_or_assign(std::move(id), read_told(reader, texts));
    }
    if (!result.records_.empty() && thing_class <= result.records_.rbegin()->first) reader.fail();
    result.records_.insert_or_assign(std::move(thing_class), std::move(by_id));
  }
  if (!texts.kinds.all_used() || !texts.packed.all_used()) reader.fail();
  return result;
}

}  // namespace benchwarden::tallies
