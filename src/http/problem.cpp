#include "http/problem.h"

#include <array>
#include <cassert>
#include <string_view>
#include <utility>

#include "base/json.h"

namespace benchwarden::http {
namespace {

struct Entry {
  ProblemType type;
  int status;
  std::string_view name;
  std::string_view title;
};

constexpr std::array kEntries = {
    Entry{ProblemType::kMalformed, 400, "malformed", "The request cannot be read"},
    Entry{ProblemType::kUnauthenticated, 401, "unauthenticated", "Nobody is signed in"},
    Entry{ProblemType::kForbidden, 403, "forbidden", "Not allowed"},
    Entry{ProblemType::kConfirmationNeeded, 403, "confirmation-needed",
          "Show again that it is you"},
    Entry{ProblemType::kPassphraseNeeded, 403, "passphrase-needed", "Only with a passphrase"},
    Entry{ProblemType::kNoAccessNow, 403, "no-access-now", "No access is given for now"},
    Entry{ProblemType::kNotFound, 404, "not-found", "Nothing is kept here"},
    Entry{ProblemType::kMethodNotAllowed, 405, "method-not-allowed", "Not with this method"},
    Entry{ProblemType::kTimedOut, 408, "timed-out", "The request took too long to arrive"},
    Entry{ProblemType::kIdConflict, 409, "id-conflict", "The same id with other content"},
    Entry{ProblemType::kAlreadySetUp, 409, "already-set-up", "The first person is entered already"},
    Entry{ProblemType::kLengthRequired, 411, "length-required", "A Content-Length is needed"},
    Entry{ProblemType::kTooLarge, 413, "too-large", "The body is too large"},
    Entry{ProblemType::kUnsupportedMediaType, 415, "unsupported-media-type",
          "The body is not of a type read here"},
    Entry{ProblemType::kMisdirected, 421, "misdirected", "Not a name of this server"},
    Entry{ProblemType::kRefused, 422, "refused", "The content was refused"},
    Entry{ProblemType::kLockedOut, 429, "locked-out", "Too many failed attempts"},
    Entry{ProblemType::kOneAtATime, 429, "one-at-a-time", "One at a time from one address"},
    Entry{ProblemType::kTooMany, 429, "too-many-requests", "Too many requests"},
    Entry{ProblemType::kInternal, 500, "internal", "A fault inside the server"},
    Entry{ProblemType::kTransferEncoding, 501, "transfer-encoding",
          "Transfer encodings are not read here"},
    Entry{ProblemType::kUnavailable, 503, "unavailable", "Not available for the moment"},
};

const Entry& entry_of(ProblemType type) {
  const Entry& entry = kEntries.at(static_cast<std::size_t>(type));
  assert(entry.type == type);
  return entry;
}

base::JsonArray listed(const std::vector<ProblemError>& errors) {
  base::JsonArray list;
  for (const ProblemError& error : errors) {
    list.emplace_back(base::JsonObject{
        {"pointer", error.pointer}, {"code", error.code}, {"detail", error.detail}});
  }
  return list;
}

}  // namespace

Response confirmation_needed() {
  return problem(ProblemType::kConfirmationNeeded,
                 "This wants the PIN or passphrase again, within the last few minutes.");
}

Response problem(ProblemType type, const std::string& detail,
                 const std::vector<ProblemError>& errors) {
  const Entry& entry = entry_of(type);
  base::JsonObject members = {{"type", "/problems/" + std::string(entry.name)},
                              {"title", entry.title},
                              {"status", entry.status},
                              {"detail", detail}};
  if (!errors.empty()) {
    members.emplace_back("errors", listed(errors));
  }
  Response response;
  response.status = entry.status;
  response.content_type = "application/problem+json";
  response.body = base::write_json(base::Json(std::move(members)));
  if (type == ProblemType::kUnauthenticated) {
    response.headers.emplace_back("WWW-Authenticate", "Bearer");
  }
  return response;
}

}  // namespace benchwarden::http
