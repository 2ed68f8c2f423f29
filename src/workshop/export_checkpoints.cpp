#include "workshop/export_checkpoints.h"

#include <optional>
#include <utility>

#include "base/timestamp.h"

namespace benchwarden::workshop {
namespace {

std::optional<std::string> text_of(const base::Json& json, std::string_view name) {
  const base::Json* member = json.find(name);
  if (member == nullptr || member->string() == nullptr) return std::nullopt;
  return *member->string();
}

std::optional<book::KeptCheckpoint> read_line(std::string_view line) {
  const auto json = base::parse_json(line);
  if (!json) return std::nullopt;
  const base::Json* number = json->find("number");
  const base::Json* size = json->find("size");
  const auto time = text_of(*json, "signed_at");
  const auto key = text_of(*json, "verifier_key");
  const auto note = text_of(*json, "note");
  if (number == nullptr || size == nullptr || !time || !key || !note) return std::nullopt;
  const auto signed_at = base::parse_rfc3339(*time);
  if (!number->integer() || !size->integer() || !signed_at) return std::nullopt;
  book::KeptCheckpoint read{static_cast<std::uint64_t>(*number->integer()),
                            static_cast<std::uint64_t>(*size->integer()), signed_at->instant, *key,
                            *note};
  // Whatever else is wrong with it shows here.
  if (checkpoint_line(read) != std::string(line) + "\n") return std::nullopt;
  return read;
}

}  // namespace

base::JsonObject kept_checkpoint_json(const book::KeptCheckpoint& checkpoint) {
  return {{"number", checkpoint.number},
          {"size", checkpoint.size},
          {"signed_at", base::format_rfc3339_utc(checkpoint.signed_at)},
          {"verifier_key", checkpoint.verifier_key},
          {"note", checkpoint.note}};
}

std::string checkpoint_line(const book::KeptCheckpoint& checkpoint) {
  return base::write_canonical_json(kept_checkpoint_json(checkpoint)) + "\n";
}

base::Result<std::vector<book::KeptCheckpoint>> read_checkpoint_lines(std::string_view text) {
  std::vector<book::KeptCheckpoint> read;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    auto one = end == std::string_view::npos ? std::nullopt : read_line(text.substr(0, end));
    if (!one || one->number != read.size() + 1) {
      return base::Error{base::ErrorCode::kInvalid,
                         std::to_string(read.size() + 1) + ": is not checkpoint " +
                             std::to_string(read.size() + 1) + " as an export writes it"};
    }
    read.push_back(*std::move(one));
    text.remove_prefix(end + 1);
  }
  return read;
}

}  // namespace benchwarden::workshop
