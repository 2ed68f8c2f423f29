#include "daemon/text_file.h"

#include <fstream>
#include <system_error>

namespace benchwarden::daemon {

base::Result<std::string> read_text_file(const std::filesystem::path& file, std::size_t bytes_max) {
  std::error_code failure;
  const std::filesystem::file_status status = std::filesystem::status(file, failure);
  if (status.type() == std::filesystem::file_type::not_found) {
    return base::Error{base::ErrorCode::kNotFound, "there is no such file"};
  }
  // Before it is opened: a pipe or a device could keep us waiting, or never end.
  if (!failure && !std::filesystem::is_regular_file(status)) {
    return base::Error{base::ErrorCode::kInvalid,
                       std::filesystem::is_directory(status)
                           ? "is a folder; a file is needed"
                           : "is no regular file (a device, a pipe or a socket)"};
  }
  std::ifstream stream(file, std::ios::binary);
  std::string bytes(bytes_max + 1, '\0');
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (failure || (stream.fail() && !stream.eof())) {
    return base::Error{base::ErrorCode::kUnavailable, "cannot be read"};
  }
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  if (bytes.size() > bytes_max) {
    return base::Error{base::ErrorCode::kInvalid,
                       "is longer than " + std::to_string(bytes_max / 1'048'576) + " MiB"};
  }
  return bytes;
}

}  // namespace benchwarden::daemon
