#include "book/last_head.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cassert>
#include <cerrno>
#include <charconv>
#include <fstream>
#include <string>
#include <system_error>
#include <utility>

namespace benchwarden::book {
namespace {

constexpr std::size_t kRecordBytes = 512;
constexpr std::size_t kSizeDigits = 20;
constexpr std::size_t kHashDigits = 64;
constexpr std::string_view kName = "head.txt";
constexpr int kNone = -1;

base::Error unavailable(const std::string& doing) {
  return {base::ErrorCode::kUnavailable,
          doing + " head.txt: " + std::generic_category().message(errno)};
}

base::Error unreadable(const std::filesystem::path& path) {
  return {base::ErrorCode::kDamaged,
          path.string() + " cannot be read as the head of a book: it was cut or changed"};
}

/// "head SIZE ROOT CHECK", spaces up to 511 bytes, line feed. CHECK is the SHA-256 of what stands
/// before its space.
std::string format_record(const TreeHead& head) {
  const std::string digits = std::to_string(head.size);
  std::string record = "head " + std::string(kSizeDigits - digits.size(), '0') + digits + " " +
                       base::to_hex(head.root);
  record += " " + base::to_hex(base::sha256(record));
  record.resize(kRecordBytes - 1, ' ');
  return record + "\n";
}

std::optional<TreeHead> parse_record(std::string_view record) {
  constexpr std::size_t kSizeAt = 5;
  constexpr std::size_t kRootAt = kSizeAt + kSizeDigits + 1;
  if (record.size() != kRecordBytes) return std::nullopt;
  TreeHead head;
  const std::string_view digits = record.substr(kSizeAt, kSizeDigits);
  const char* end = digits.data() + digits.size();
  const auto read = std::from_chars(digits.data(), end, head.size);
  const auto root = base::digest_from_hex(record.substr(kRootAt, kHashDigits));
  if (read.ec != std::errc() || read.ptr != end || !root.ok()) return std::nullopt;
  head.root = *root;
  // Whatever else is wrong with the record, its check among it, shows here.
  if (record != format_record(head)) return std::nullopt;
  return head;
}

std::array<std::optional<TreeHead>, 2> parse_file(std::string_view bytes) {
  if (bytes.size() != 2 * kRecordBytes) return {};
  return {parse_record(bytes.substr(0, kRecordBytes)), parse_record(bytes.substr(kRecordBytes))};
}

base::Result<std::string> read_file(const std::filesystem::path& path) {
  std::error_code failure;
  if (!std::filesystem::is_regular_file(path, failure)) {
    return base::Error{base::ErrorCode::kUnavailable,
                       path.string() + (failure ? ": " + failure.message() : " is no file")};
  }
  // One byte more than it has: another length is seen without reading whatever lies there.
  std::string bytes(2 * kRecordBytes + 1, '\0');
  std::ifstream file(path, std::ios::binary);
  if (!file) return unavailable("opening");
  file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (file.bad()) return unavailable("reading");
  bytes.resize(static_cast<std::size_t>(file.gcount()));
  return bytes;
}

int newest_record(const std::array<std::optional<TreeHead>, 2>& records) {
  assert(records[0] || records[1]);
  if (!records[0]) return 1;
  if (!records[1]) return 0;
  return records[1]->size > records[0]->size ? 1 : 0;
}

base::Status<> write_all(int descriptor, std::string_view bytes, off_t offset) {
  const ssize_t written = ::pwrite(descriptor, bytes.data(), bytes.size(), offset);
  if (written != static_cast<ssize_t>(bytes.size())) return unavailable("writing");
  return base::Done{};
}

base::Status<> sync_folder(const std::filesystem::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return unavailable("syncing the folder of");
  const int synced = ::fsync(descriptor);
  ::close(descriptor);
  if (synced != 0) return unavailable("syncing the folder of");
  return base::Done{};
}

}  // namespace

base::Result<std::optional<TreeHead>> LastHeadFile::read(const std::filesystem::path& folder) {
  // A record that is being written while we read may look torn; its turn is over in microseconds,
  // and the other record is whole meanwhile but may be older.
  const std::filesystem::path path = folder / kName;
  std::error_code failure;
  if (!std::filesystem::exists(path, failure)) return std::optional<TreeHead>();
  const auto bytes = read_file(path);
  if (!bytes.ok()) return bytes.error();
  const auto records = parse_file(*bytes);
  if (!records[0] && !records[1]) return unreadable(path);
  return records[static_cast<std::size_t>(newest_record(records))];
}

base::Status<> LastHeadFile::create(const std::filesystem::path& folder, const TreeHead& head) {
  const std::filesystem::path path = folder / kName;
  const std::filesystem::path temporary = folder / "head.txt.new";
  const int descriptor = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644);
  if (descriptor < 0) return unavailable("creating");
  const std::string record = format_record(head);
  auto written = write_all(descriptor, record + record, 0);
  const int synced = ::fsync(descriptor);
  ::close(descriptor);
  if (!written.ok()) return written;
  if (synced != 0) return unavailable("syncing");
  std::error_code failure;
  std::filesystem::rename(temporary, path, failure);
  if (failure) return base::Error{base::ErrorCode::kUnavailable, failure.message()};
  return sync_folder(folder);
}

base::Result<LastHeadFile> LastHeadFile::open(const std::filesystem::path& folder) {
  const std::filesystem::path path = folder / kName;
  const auto bytes = read_file(path);
  if (!bytes.ok()) return bytes.error();
  const auto records = parse_file(*bytes);
  if (!records[0] && !records[1]) return unreadable(path);
  const int descriptor = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
  if (descriptor < 0) return unavailable("opening");
  return LastHeadFile(descriptor, 1 - newest_record(records));
}

LastHeadFile::LastHeadFile(LastHeadFile&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, kNone)), next_record_(other.next_record_) {}

LastHeadFile::~LastHeadFile() {
  if (descriptor_ == kNone) return;
  static_cast<void>(sync().ok());  // an older record is no fault
  ::close(descriptor_);
}

base::Status<> LastHeadFile::write(const TreeHead& head) {
  const auto offset = static_cast<off_t>(kRecordBytes) * next_record_;
  auto written = write_all(descriptor_, format_record(head), offset);
  if (written.ok()) next_record_ = 1 - next_record_;
  return written;
}

base::Status<> LastHeadFile::sync() {
  if (::fdatasync(descriptor_) != 0) return unavailable("syncing");
  return base::Done{};
}

}  // namespace benchwarden::book
