#include "daemon/network.h"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"
#include "http/given_certificates.h"
#include "http/host_list.h"
#include "http/own_certificates.h"

namespace benchwarden::daemon {
namespace {

base::Error invalid(const std::string& detail) { return {base::ErrorCode::kInvalid, detail}; }

std::string machine_name() {
  std::array<char, 256> name{};
  if (::gethostname(name.data(), name.size() - 1) != 0) return "";
  const std::string whole = http::ascii_lower(name.data());
  return whole.substr(0, whole.find('.')) + ".local";
}

base::Result<std::string> name_of(const Config& config) {
  std::string name = config.name.empty() ? machine_name() : config.name;
  if (http::is_network_name(name)) return name;
  return invalid("'name' is '" + name +
                 "'; accepted: a host name of lower-case letters, digits and hyphens with at least "
                 "one dot, 64 characters at most, such as shop.local");
}

/// IPv6 addresses do not answer on a socket for all of IPv4.
std::vector<std::string> reachable(const std::string& any_address) {
  std::vector<std::string> addresses = http::present_addresses();
  if (any_address.find(':') == std::string::npos) {
    addresses.erase(
        std::remove_if(addresses.begin(), addresses.end(),
                       [](const auto& one) { return one.find(':') != std::string::npos; }),
        addresses.end());
  }
  return addresses;
}

base::Status<> check_certificate(const Config& config, bool is_secure) {
  if (config.certificate.empty() != config.certificate_key.empty()) {
    return invalid("'certificate' and 'certificate_key' stand together; accepted: both or neither");
  }
  if (!config.certificate.empty() && !is_secure) {
    return invalid("'certificate' is '" + config.certificate.string() +
                   "', but the address is of this machine alone; accepted: https = true with it");
  }
  return base::Done{};
}

base::Status<> check_address(const Config& config, const std::string& address, bool is_secure) {
  if (!is_secure && !http::is_loopback_address(address)) {
    return invalid("'https' is false, but other machines reach the address " + address +
                   "; accepted: true, or an address of this machine alone such as 127.0.0.1");
  }
  if (is_secure && config.certificate.empty() && !http::is_any_address(address) &&
      !http::is_private_address(address)) {
    return invalid("'address' is " + address +
                   ", which our own authority must not vouch for; accepted: an address of a local "
                   "network, or a certificate of your own");
  }
  if (is_secure && config.set_up_port.value_or(kSetUpPort) == config.port && config.port != 0) {
    return invalid("'set_up_port' is " + std::to_string(config.port) +
                   ", as 'port' is; accepted: another one");
  }
  return base::Done{};
}

/// A setting that changes nothing was meant to change something.
base::Status<> check_effect(const Config& config, const std::string& address, bool is_secure) {
  const std::string no_tablets = ", but only this machine reaches the address " + address +
                                 " by plain HTTP; accepted: with https = true or an address that "
                                 "other machines reach, or left out";
  if (!is_secure && !config.name.empty())
    return invalid("'name' is '" + config.name + "'" + no_tablets);
  if (!is_secure && config.set_up_port) {
    return invalid("'set_up_port' is " + std::to_string(*config.set_up_port) + no_tablets);
  }
  if (is_secure && config.certificate.empty() && !config.host_names.empty()) {
    return invalid("'host_names' is '" + base::join(config.host_names, "', '") +
                   "', but our own authority vouches for 'name' and for addresses only; accepted: "
                   "with 'certificate' and 'certificate_key' for these names, or left out");
  }
  return base::Done{};
}

}  // namespace

base::Result<Network> network_of(const Config& config) {
  const std::string address = http::plain_address(config.address);
  Network network;
  network.is_secure = config.https.value_or(!http::is_loopback_address(address));
  for (const auto& checked : {check_certificate(config, network.is_secure),
                              check_address(config, address, network.is_secure),
                              check_effect(config, address, network.is_secure)}) {
    if (!checked) return checked.error();
  }
  network.present = [] { return std::vector<std::string>(); };
  if (!network.is_secure) return network;
  auto name = name_of(config);
  if (!name) return name.error();
  network.name = *std::move(name);
  if (http::is_any_address(address)) {
    network.always = {"localhost", "127.0.0.1", "::1"};
    network.present = [address] { return reachable(address); };
  } else {
    network.always = {address};
    if (http::is_loopback_address(address)) network.always.emplace_back("localhost");
  }
  return network;
}

base::Result<std::unique_ptr<http::CertificateSource>> certificates_for(const Config& config,
                                                                        const Network& network,
                                                                        const base::Clock& clock) {
  using Source = std::unique_ptr<http::CertificateSource>;
  if (config.certificate.empty()) {
    auto own = http::OwnCertificates::open(config.data_folder,
                                           {network.name, network.always, network.present}, clock);
    if (!own) return own.error();
    return Source(*std::move(own));
  }
  auto given = http::GivenCertificates::open({config.certificate, config.certificate_key},
                                             network.name, clock);
  if (!given) return given.error();
  return Source(*std::move(given));
}

}  // namespace benchwarden::daemon
