#pragma once

#include "http/serving_certificate.h"

namespace Poco::Net {
class ServerSocket;
}  // namespace Poco::Net

namespace benchwarden::http {

/// A socket, not bound yet, that speaks TLS 1.2 or later and shows `certificate` as it is at each
/// handshake. The handshake itself is done by the worker at its first read, so that one that is
/// slow holds up nobody else and falls under the guard's deadline for a head.
/// `certificate` outlives the socket and every connection of it.
Poco::Net::ServerSocket tls_server_socket(const ServingCertificate& certificate);

}  // namespace benchwarden::http
