#pragma once

#include <string>
#include <vector>

#include "access/access.h"
#include "http/application.h"
#include "http/route.h"
#include "workshop/ports.h"

namespace benchwarden::http {

/// What the API works with; everything outlives the server.
struct ApiPorts {
  const workshop::Ports& workshop;
  access::Access& access;
  std::string version;
};

/// The whole API: method, path, role, effect, handler, sorted by path.
std::vector<Route> api_routes(const ApiPorts& ports);

/// Looks the credential of a request up in access.db.
Authenticate authenticator(access::Access& access);

}  // namespace benchwarden::http
