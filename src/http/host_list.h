#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace benchwarden::http {

std::string ascii_lower(std::string_view text);

/// An address as it stands in a URL and in Host: that of IPv6 in brackets.
std::string host_of_address(const std::string& address);

/// The names under which this server answers. A page of another site whose name was pointed at
/// this machine (DNS rebinding) sends its own name and is turned away.
class HostList {
 public:
  /// A name stands for itself and for itself with our port: "localhost", "[::1]", "10.0.0.5".
  /// A name given with a port stands for exactly that, e.g. behind a TLS proxy.
  HostList(const std::vector<std::string>& names, std::uint16_t port);

  [[nodiscard]] bool contains(std::string_view host) const;

 private:
  std::vector<std::string> accepted_;  ///< in lower case
};

}  // namespace benchwarden::http
