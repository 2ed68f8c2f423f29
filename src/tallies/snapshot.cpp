#include <string_view>

#include "base/sha256.h"
#include "tallies/bytes.h"
#include "tallies/state.h"

// A snapshot is `head, fold version, size, parts …, SHA-256 of all before`. Its inside is of no
// one else's concern: it is made by one fold version and read by the same.

namespace benchwarden::tallies {
namespace {

constexpr std::string_view kHead = "benchwarden tallies\n";
constexpr std::size_t kDigestSize = 32;

void write_marks(ByteWriter& writer, const std::vector<Mark>& marks) {
  writer.number(marks.size());
  for (const Mark& mark : marks) {
    writer.signed_number(mark.occurred_at.ms);
    writer.signed_number(mark.recorded_at.ms);
    writer.number(mark.seq);
    writer.number(mark.corrected_by);
  }
}

std::vector<Mark> read_marks(ByteReader& reader) {
  std::vector<Mark> marks;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    Mark mark;
    mark.occurred_at.ms = reader.signed_number();
    mark.recorded_at.ms = reader.signed_number();
    mark.seq = reader.number();
    mark.corrected_by = reader.number();
    marks.push_back(mark);
  }
  return marks;
}

base::Error damaged(std::string_view what) {
  return {base::ErrorCode::kDamaged, "snapshot of the tallies: " + std::string(what)};
}

}  // namespace

std::string State::snapshot() const {
  ByteWriter writer;
  writer.text(kHead);
  writer.number(kFoldVersion);
  writer.number(size_);
  under_care_.write(writer);
  records_.write(writer);
  collections_.write(writer);
  devices_.write(writer);
  claims_.write(writer);
  flow_.write(writer);
  write_marks(writer, corrected_);
  write_marks(writer, lagging_);
  const base::Sha256Digest digest = base::sha256(writer.bytes());
  std::string bytes = writer.take();
  bytes += base::as_bytes(digest);
  return bytes;
}

base::Result<State> State::from_snapshot(std::string_view bytes) {
  if (bytes.size() < kDigestSize) return damaged("too short");
  const std::string_view body = bytes.substr(0, bytes.size() - kDigestSize);
  const base::Sha256Digest digest = base::sha256(body);
  if (bytes.substr(body.size()) != base::as_bytes(digest)) {
    return damaged("the bytes do not match their digest");
  }
  ByteReader reader(body);
  if (reader.text() != kHead) return damaged("not a snapshot");
  if (reader.number() != kFoldVersion) return damaged("of another fold version");
  State state;
  state.size_ = reader.number();
  state.under_care_ = Register::read(reader);
  state.records_ = Records::read(reader);
  state.collections_ = Collections::read(reader);
  state.devices_ = Devices::read(reader);
  state.claims_ = Claims::read(reader);
  state.flow_ = Flow::read(reader);
  state.corrected_ = read_marks(reader);
  state.lagging_ = read_marks(reader);
  if (reader.failed() || !reader.at_end()) return damaged("the contents do not fit together");
  for (const auto& [thing_class, things] : state.under_care_.classes()) {
    for (const auto& [id, thing] : things) state.decide_service(thing_class, id);
  }
  return state;
}

}  // namespace benchwarden::tallies
