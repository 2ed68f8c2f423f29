#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "access/access.h"
#include "base/json.h"
#include "http/application.h"
#include "http/code_tries.h"
#include "http/route.h"
#include "workshop/backup_entry.h"
#include "workshop/ports.h"

namespace benchwarden::http {

/// Where a tablet finds this daemon. Origins, such as "https://shop.local:8417".
struct Addresses {
  std::string app;
  std::optional<std::string> set_up;          ///< plain HTTP: how to trust our certificate
  std::optional<std::string> ca_fingerprint;  ///< SHA-256 of that certificate, as it is compared
};

/// What the API works with; everything outlives the server.
struct ApiPorts {
  const workshop::Ports& workshop;
  access::Access& access;
  std::string version;
  Addresses addresses;
  /// What comes from this machine's own address was handed on by a proxy, from anywhere.
  bool behind_proxy = false;
  std::function<workshop::BackupSchedule()> backups;
  NoteRefused note_refused;
  /// How the program runs: see the interface's description.
  std::function<base::Json()> diagnostics;
  std::shared_ptr<RateLimits> code_tries = std::make_shared<RateLimits>(kCodeTries);
};

/// The whole API: method, path, role, effect, handler, sorted by path.
std::vector<Route> api_routes(const ApiPorts& ports);

/// Looks the credential of a request up in access.db.
Authenticate authenticator(access::Access& access);
RecogniseDevice device_recogniser(access::Access& access);

}  // namespace benchwarden::http
