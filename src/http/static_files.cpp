#include "http/static_files.h"

#include "base/sha256.h"

namespace benchwarden::http {

std::string etag_of(std::string_view bytes) {
  return "\"" + base::to_hex(base::sha256(bytes)).substr(0, 16) + "\"";
}

StaticAnswers::StaticAnswers(const StaticFiles& files) {
  for (const auto& [path, file] : files) {
    Response answer;
    answer.content_type = file.content_type;
    answer.body = file.bytes;
    answer.headers = {
        {"ETag", etag_of(file.bytes)},
        {"Cache-Control",
         file.caching == Caching::kForever ? "public, max-age=31536000, immutable" : "no-cache"}};
    answers_.emplace(path, std::move(answer));
  }
}

const Response* StaticAnswers::find(std::string_view path) const {
  const auto found = answers_.find(path);
  return found == answers_.end() ? nullptr : &found->second;
}

}  // namespace benchwarden::http
