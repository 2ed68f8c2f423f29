#include "http/network_names.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <memory>
#include <optional>

namespace benchwarden::http {
namespace {

bool is_label(std::string_view label) {
  const auto is_sign = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  return !label.empty() && label.size() <= 63 && label.front() != '-' && label.back() != '-' &&
         std::all_of(label.begin(), label.end(), is_sign);
}

/// The bytes of an address; those of IPv4 are four.
std::optional<std::string> bytes_of(const std::string& address) {
  std::array<char, sizeof(in6_addr)> bytes{};
  if (::inet_pton(AF_INET, address.c_str(), bytes.data()) == 1) {
    return std::string(bytes.data(), sizeof(in_addr));
  }
  if (::inet_pton(AF_INET6, address.c_str(), bytes.data()) == 1) {
    return std::string(bytes.data(), bytes.size());
  }
  return std::nullopt;
}

bool is_in(const std::string& address, const std::string& range) {
  const std::size_t slash = range.find('/');
  const auto bytes = bytes_of(address);
  const auto network = bytes_of(range.substr(0, slash));
  const auto mask = bytes_of(range.substr(slash + 1));
  if (!bytes || bytes->size() != network->size()) return false;
  for (std::size_t i = 0; i < bytes->size(); ++i) {
    if (((*bytes)[i] & (*mask)[i]) != (*network)[i]) return false;
  }
  return true;
}

const std::vector<std::string>& loopback_ranges() {
  static const std::vector<std::string> kRanges{"127.0.0.0/255.0.0.0",
                                                "::1/ffff:ffff:ffff:ffff:ffff:ffff:ffff:ffff"};
  return kRanges;
}

bool is_in_any(const std::string& address, const std::vector<std::string>& ranges) {
  return std::any_of(ranges.begin(), ranges.end(),
                     [&](const auto& range) { return is_in(address, range); });
}

std::string text_of(const sockaddr& address) {
  std::array<char, INET6_ADDRSTRLEN> text{};
  if (address.sa_family == AF_INET) {
    const auto& four = reinterpret_cast<const sockaddr_in&>(address);
    ::inet_ntop(AF_INET, &four.sin_addr, text.data(), text.size());
  } else if (address.sa_family == AF_INET6) {
    const auto& six = reinterpret_cast<const sockaddr_in6&>(address);
    ::inet_ntop(AF_INET6, &six.sin6_addr, text.data(), text.size());
  }
  return text.data();
}

}  // namespace

bool is_network_name(const std::string& text) {
  std::size_t labels = 0;
  for (std::size_t start = 0; start <= text.size(); ++labels) {
    const std::size_t end = std::min(text.find('.', start), text.size());
    if (!is_label(std::string_view(text).substr(start, end - start))) return false;
    start = end + 1;
  }
  return labels >= 2 && text.size() <= kNetworkNameLengthMax && !bytes_of(text);
}

const std::vector<std::string>& private_ranges() {
  static const std::vector<std::string> kRanges = [] {
    std::vector<std::string> ranges{"10.0.0.0/255.0.0.0", "172.16.0.0/255.240.0.0",
                                    "192.168.0.0/255.255.0.0", "169.254.0.0/255.255.0.0",
                                    "fc00::/fe00::"};
    ranges.insert(ranges.end(), loopback_ranges().begin(), loopback_ranges().end());
    return ranges;
  }();
  return kRanges;
}

bool is_private_address(const std::string& address) { return is_in_any(address, private_ranges()); }

bool is_loopback_address(const std::string& address) {
  return is_in_any(address, loopback_ranges());
}

std::string plain_address(const std::string& address) {
  const auto bytes = bytes_of(address);
  if (!bytes) return address;
  std::array<char, INET6_ADDRSTRLEN> text{};
  ::inet_ntop(bytes->size() == sizeof(in_addr) ? AF_INET : AF_INET6, bytes->data(), text.data(),
              text.size());
  return text.data();
}

bool is_any_address(const std::string& address) {
  const auto bytes = bytes_of(address);
  return bytes && std::all_of(bytes->begin(), bytes->end(), [](char c) { return c == 0; });
}

std::vector<std::string> present_addresses() {
  ifaddrs* first = nullptr;
  if (::getifaddrs(&first) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> all(first, ::freeifaddrs);
  std::vector<std::string> found;
  for (const ifaddrs* one = all.get(); one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || (one->ifa_flags & IFF_UP) == 0) continue;
    std::string text = text_of(*one->ifa_addr);
    if (is_private_address(text) && !is_loopback_address(text)) found.push_back(std::move(text));
  }
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

}  // namespace benchwarden::http
