#include "seal/tlog_proof.h"

#include <optional>

#include "base/base64.h"
#include "base/text.h"

namespace benchwarden::seal {
namespace {

constexpr std::string_view kFirstLine = "c2sp.org/tlog-proof@v1";
constexpr std::string_view kExtra = "extra ";
constexpr std::string_view kIndex = "index ";
constexpr std::size_t kProofBytesMax = 1'048'576;
constexpr std::size_t kPathMax = 63;

base::Error no_proof(const std::string& why) {
  return {base::ErrorCode::kInvalid, "no proof of an entry: " + why};
}

/// Lines of a text, one after the other.
class Lines {
 public:
  explicit Lines(std::string_view rest) : rest_(rest) {}
  /// The next one without its end; none where there is no ended one.
  std::optional<std::string_view> next() {
    const std::size_t end = rest_.find('\n');
    if (end == std::string_view::npos) return std::nullopt;
    const std::string_view line = rest_.substr(0, end);
    rest_.remove_prefix(end + 1);
    return line;
  }
  [[nodiscard]] bool starts_with(std::string_view word) const { return rest_.starts_with(word); }
  [[nodiscard]] std::string_view rest() const { return rest_; }

 private:
  std::string_view rest_;
};

base::Result<std::uint64_t> read_index(const std::optional<std::string_view>& line) {
  if (line && line->starts_with(kIndex)) {
    if (const auto index = base::whole_number(line->substr(kIndex.size()))) return *index;
  }
  return no_proof("a line 'index' with a whole number is needed");
}

}  // namespace

std::string write_tlog_proof(const TlogProof& proof) {
  std::string text = std::string(kFirstLine) + "\n";
  if (!proof.extra.empty()) text += std::string(kExtra) + base::to_base64(proof.extra) + "\n";
  text += std::string(kIndex) + std::to_string(proof.index) + "\n";
  for (const base::Sha256Digest& hash : proof.path) {
    text += base::to_base64(base::as_bytes(hash)) + "\n";
  }
  return text + "\n" + proof.note;
}

base::Result<TlogProof> parse_tlog_proof(std::string_view bytes) {
  if (bytes.size() > kProofBytesMax) {
    return no_proof("it is longer than " + std::to_string(kProofBytesMax) + " bytes");
  }
  Lines lines(bytes);
  if (lines.next() != kFirstLine) {
    return no_proof("the first line '" + std::string(kFirstLine) + "' is needed");
  }
  TlogProof proof;
  if (lines.starts_with(kExtra)) {
    const auto line = lines.next();
    if (!line) return no_proof("the line 'extra' does not end");
    auto extra = base::from_base64(line->substr(kExtra.size()));
    if (!extra) return no_proof("what stands behind 'extra' is " + extra.error().detail);
    proof.extra = *std::move(extra);
  }
  const auto index = read_index(lines.next());
  if (!index) return index.error();
  proof.index = *index;
  for (auto line = lines.next(); line != ""; line = lines.next()) {
    if (!line) return no_proof("there is no empty line between the hashes and the checkpoint");
    const auto hash = base::digest_from_base64(*line);
    if (!hash) return no_proof("a hash is " + hash.error().detail);
    proof.path.push_back(*hash);
    if (proof.path.size() > kPathMax) return no_proof("it has more than 63 hashes");
  }
  proof.note = lines.rest();
  return proof;
}

}  // namespace benchwarden::seal
