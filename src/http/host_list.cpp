#include "http/host_list.h"

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

HostList::HostList(const std::vector<std::string>& names, std::uint16_t port) {
  for (const std::string& name : names) {
    accepted_.push_back(ascii_lower(name));
    accepted_.push_back(ascii_lower(name) + ":" + std::to_string(port));
  }
}

bool HostList::contains(std::string_view host) const {
  return std::find(accepted_.begin(), accepted_.end(), ascii_lower(host)) != accepted_.end();
}

}  // namespace benchwarden::http
