#pragma once

#include <map>
#include <string>
#include <string_view>

#include "http/message.h"

namespace benchwarden::http {

/// kRevalidate: kept, but asked about each time. kForever: the path changes with the content.
enum class Caching { kRevalidate, kForever };

struct StaticFile {
  std::string_view bytes;  ///< must outlive the server
  std::string content_type;
  Caching caching = Caching::kRevalidate;
};
/// By whole path, e.g. "/" and "/app.js". Nothing is ever looked up in a file system.
using StaticFiles = std::map<std::string, StaticFile, std::less<>>;

/// Ready-made answers with a strong ETag of the bytes.
class StaticAnswers {
 public:
  explicit StaticAnswers(const StaticFiles& files);
  /// Nullptr when there is no such file; else lives as long as this.
  [[nodiscard]] const Response* find(std::string_view path) const;

 private:
  std::map<std::string, Response, std::less<>> answers_;
};

/// A strong ETag: the first 16 hex digits of the SHA-256, quoted.
std::string etag_of(std::string_view bytes);

}  // namespace benchwarden::http
