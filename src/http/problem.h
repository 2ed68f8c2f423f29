#pragma once

#include <string>
#include <vector>

#include "http/message.h"

namespace benchwarden::http {

/// Every kind of refusal the API knows; each has one status, one type and one title.
enum class ProblemType {
  kMalformed,             ///< 400
  kUnauthenticated,       ///< 401
  kForbidden,             ///< 403
  kConfirmationNeeded,    ///< 403
  kPassphraseNeeded,      ///< 403
  kNoAccessNow,           ///< 403
  kNotFound,              ///< 404
  kMethodNotAllowed,      ///< 405
  kTimedOut,              ///< 408
  kIdConflict,            ///< 409
  kAlreadySetUp,          ///< 409
  kLengthRequired,        ///< 411
  kTooLarge,              ///< 413
  kUnsupportedMediaType,  ///< 415
  kMisdirected,           ///< 421
  kRefused,               ///< 422
  kLockedOut,             ///< 429
  kOneAtATime,            ///< 429
  kTooMany,               ///< 429
  kInternal,              ///< 500
  kTransferEncoding,      ///< 501
  kUnavailable,           ///< 503
};

/// One fault of a submission.
struct ProblemError {
  std::string pointer;  ///< RFC 6901, e.g. "/fields/volume_ml"
  std::string code;
  std::string detail;
};

/// An RFC 9457 answer. `errors` is left out when there are none. A 401 names the Bearer scheme.
Response problem(ProblemType type, const std::string& detail,
                 const std::vector<ProblemError>& errors = {});

/// To whoever is signed in and may do that, but did not show lately that it is they.
Response confirmation_needed();

}  // namespace benchwarden::http
