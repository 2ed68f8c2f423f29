#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace benchwarden::http {

std::string ascii_lower(std::string_view text);

/// An address as it stands in a URL and in Host: that of IPv6 in brackets.
std::string host_of_address(const std::string& address);
/// Whether Host can say so at all: a name or address, with a port or without.
bool is_host(std::string_view text);
/// Whether a host, as it stands in a URL, is an address and no name.
bool is_address_host(std::string_view host);

/// Which addresses beside the listed hosts are taken. kAny is for a server on all addresses of a
/// machine, which come and go. It is no way in for DNS rebinding: that needs a name, and a browser
/// that was given an address connects to just that one.
enum class HostAddresses { kListed, kAny };

/// The names under which this server answers. A page of another site whose name was pointed at
/// this machine (DNS rebinding) sends its own name and is turned away.
class HostList {
 public:
  /// A name stands for itself and for itself with our port: "localhost", "[::1]", "10.0.0.5".
  /// A name given with a port stands for exactly that, e.g. behind a TLS proxy.
  HostList(const std::vector<std::string>& names, std::uint16_t port,
           HostAddresses addresses = HostAddresses::kListed);

  [[nodiscard]] bool contains(std::string_view host) const;

 private:
  std::vector<std::string> accepted_;  ///< in lower case
  std::string port_;                   ///< ":8417"
  HostAddresses addresses_;
};

}  // namespace benchwarden::http
