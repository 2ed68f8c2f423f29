#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "http/message.h"
#include "http/rate_limits.h"
#include "http/route.h"
#include "http/static_files.h"

namespace benchwarden::http {

/// Who the credential of a request stands for; nothing when it is missing, unknown or expired.
using Authenticate = std::function<std::optional<SignedIn>(const Request&)>;
/// The paired device whose secret a request carries; nothing when there is none, or none any more.
using RecogniseDevice = std::function<std::optional<access::Device>(const Request&)>;

/// Told of a request that was refused: why (host, origin, rate, role …), from where, and the id of
/// the person whose session it came with; empty where nobody was asked for.
using NoteRefused = std::function<void(const std::string& reason, const std::string& peer,
                                       const std::string& person)>;

/// One line of the access log. Nothing in it was chosen by the caller but the peer's address: the
/// path is our own pattern, so that no secret in a path or query gets into a log.
struct AccessLine {
  std::string peer;
  std::string method;   ///< "-" for one that no route can have
  std::string pattern;  ///< of the route or file; "-" when there was none
  int status = 0;
  std::string person;  ///< empty when nobody is signed in
  std::size_t body_bytes = 0;
  /// Of the program's own work: from the end of the body to the answer.
  std::chrono::microseconds duration{};
};

/// What the server serves, all of it called from many threads at once.
struct Application {
  std::vector<Route> routes;  ///< in the order RouteTable asks for
  StaticFiles files;
  Authenticate authenticate;
  RecogniseDevice recognise_device;   ///< may be empty
  NoteRefused note_refused;           ///< may be empty
  std::optional<RateSettings> rates;  ///< none: no limit
  std::string session_cookie = "benchwarden_session";
  std::string device_cookie = "benchwarden_device";
  std::function<void(const AccessLine&)> access_log;       ///< may be empty
  std::function<void(const std::string& line)> fault_log;  ///< our own faults; may be empty
};

}  // namespace benchwarden::http
