#include "http/host_list.h"

#include <arpa/inet.h>

#include <algorithm>

namespace benchwarden::http {

std::string ascii_lower(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') {
      c = static_cast<char>(c - 'A' + 'a');
    }
  }
  return lower;
}

std::string host_of_address(const std::string& address) {
  return address.find(':') == std::string::npos ? address : "[" + address + "]";
}

bool is_host(std::string_view text) {
  constexpr std::string_view kTaken = "abcdefghijklmnopqrstuvwxyz0123456789-.:[]";
  return !text.empty() && ascii_lower(text).find_first_not_of(kTaken) == std::string::npos;
}

bool is_address_host(std::string_view host) {
  in6_addr bytes{};
  if (host.size() > 2 && host.front() == '[' && host.back() == ']') {
    return ::inet_pton(AF_INET6, std::string(host.substr(1, host.size() - 2)).c_str(), &bytes) == 1;
  }
  return ::inet_pton(AF_INET, std::string(host).c_str(), &bytes) == 1;
}

HostList::HostList(const std::vector<std::string>& names, std::uint16_t port,
                   HostAddresses addresses)
    : port_(":" + std::to_string(port)), addresses_(addresses) {
  for (const std::string& name : names) {
    accepted_.push_back(ascii_lower(name));
    accepted_.push_back(ascii_lower(name) + port_);
  }
}

bool HostList::contains(std::string_view host) const {
  if (std::find(accepted_.begin(), accepted_.end(), ascii_lower(host)) != accepted_.end()) {
    return true;
  }
  if (addresses_ == HostAddresses::kListed) return false;
  if (host.ends_with(port_)) host.remove_suffix(port_.size());
  return is_address_host(host);
}

}  // namespace benchwarden::http
