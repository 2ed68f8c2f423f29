#pragma once

#include <map>
#include <optional>
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
  std::string_view gzip = {};  ///< the same bytes packed; empty: sent as they are to everybody
};
/// By whole path, e.g. "/" and "/app.js". Nothing is ever looked up in a file system.
using StaticFiles = std::map<std::string, StaticFile, std::less<>>;

/// The answers of one file, each with a strong ETag of the bytes it sends.
class StaticAnswer {
 public:
  explicit StaticAnswer(const StaticFile& file);
  /// For a client that sent this Accept-Encoding, or none.
  [[nodiscard]] const Response& to(std::string_view accept_encoding) const;

 private:
  Response plain_;
  std::optional<Response> packed_;
};

/// Ready-made answers.
class StaticAnswers {
 public:
  explicit StaticAnswers(const StaticFiles& files);
  /// Nullptr when there is no such file; else lives as long as this.
  [[nodiscard]] const StaticAnswer* find(std::string_view path) const;

 private:
  std::map<std::string, StaticAnswer, std::less<>> answers_;
};

/// A strong ETag: the first 16 hex digits of the SHA-256, quoted.
std::string etag_of(std::string_view bytes);

}  // namespace benchwarden::http
