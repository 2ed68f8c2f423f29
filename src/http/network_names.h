#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace benchwarden::http {

/// The longest name a certificate's subject can hold (RFC 5280, ub-common-name).
inline constexpr std::size_t kNetworkNameLengthMax = 64;

/// A host name of the local network, as it is typed into a browser: labels of lower-case letters,
/// digits and hyphens with dots between, at least two of them.
bool is_network_name(const std::string& text);

/// Ranges of addresses that belong to nobody in particular (RFC 1918, 3927, 4193) and this machine
/// itself: what our own authority may vouch for. "10.0.0.0/255.0.0.0".
const std::vector<std::string>& private_ranges();
bool is_private_address(const std::string& address);
bool is_loopback_address(const std::string& address);
/// An address as everybody writes it: "::1" for "0:0:0:0:0:0:0:1".
std::string plain_address(const std::string& address);
/// "0.0.0.0" and "::", which stand for every address of this machine.
bool is_any_address(const std::string& address);

/// Asked each time: a network gives its machines other addresses as it likes.
using PresentAddresses = std::function<std::vector<std::string>()>;
/// The private addresses this machine has now, its loopback not among them, sorted.
std::vector<std::string> present_addresses();

}  // namespace benchwarden::http
