#include <string>
#include <utility>

#include "base/sha256.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "http/scoped_entries.h"
#include "workshop/attachments.h"

namespace benchwarden::http {

Response post_attachment(const ApiPorts& ports, const Request& request, const Context&) {
  const auto taken = workshop::take_in(ports.workshop, request.body);
  if (!taken && taken.error().code == base::ErrorCode::kInvalid) {
    return refused_value("", taken.error().detail);
  }
  if (!taken) return error_answer(taken.error());
  return json_answer(taken->already_there ? 200 : 201,
                     base::JsonObject{{"digest", base::to_hex(taken->digest)},
                                      {"media_type", taken->media_type},
                                      {"bytes", static_cast<std::uint64_t>(taken->bytes)}});
}

Response get_attachment(const ApiPorts& ports, const Request&, const Context& context) {
  const auto digest = base::digest_from_hex(context.part("digest"));
  if (!digest) return error_answer({base::ErrorCode::kNotFound, digest.error().detail});
  auto file = workshop::attached_file(ports.workshop, *digest);
  if (!file) return error_answer(file.error());
  if (auto refusal = file_refusal(ports, context, *digest)) return *std::move(refusal);
  Response response;
  response.content_type = file->media_type;
  // Somebody else made the file: it is saved and never shown as a page of ours, and where a
  // browser shows it all the same, nothing in it may run or load.
  response.headers.emplace_back("Content-Disposition",
                                "attachment; filename=\"" + file->name + "\"");
  response.headers.emplace_back("Content-Security-Policy", "default-src 'none'; sandbox");
  response.body = std::move(file->bytes);
  return response;
}

}  // namespace benchwarden::http
