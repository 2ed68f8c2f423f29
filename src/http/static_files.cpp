#include "http/static_files.h"

#include "base/sha256.h"
#include "http/accepted_encoding.h"

namespace benchwarden::http {
namespace {

Response answer_of(const StaticFile& file, std::string_view bytes) {
  Response answer;
  answer.content_type = file.content_type;
  answer.body = bytes;
  answer.headers = {
      {"ETag", etag_of(bytes)},
      {"Cache-Control",
       file.caching == Caching::kForever ? "public, max-age=31536000, immutable" : "no-cache"}};
  // Whoever keeps the answer for others is to ask again for those that take another form.
  if (!file.gzip.empty()) answer.headers.emplace_back("Vary", "Accept-Encoding");
  return answer;
}

}  // namespace

std::string etag_of(std::string_view bytes) {
  return "\"" + base::to_hex(base::sha256(bytes)).substr(0, 16) + "\"";
}

StaticAnswer::StaticAnswer(const StaticFile& file) : plain_(answer_of(file, file.bytes)) {
  if (file.gzip.empty()) return;
  packed_ = answer_of(file, file.gzip);
  packed_->headers.emplace_back("Content-Encoding", "gzip");
}

const Response& StaticAnswer::to(std::string_view accept_encoding) const {
  return packed_ && accepts_gzip(accept_encoding) ? *packed_ : plain_;
}

StaticAnswers::StaticAnswers(const StaticFiles& files) {
  for (const auto& [path, file] : files) answers_.emplace(path, StaticAnswer(file));
}

const StaticAnswer* StaticAnswers::find(std::string_view path) const {
  const auto found = answers_.find(path);
  return found == answers_.end() ? nullptr : &found->second;
}

}  // namespace benchwarden::http
