#include "daemon/front.h"

#include <algorithm>
#include <iostream>
#include <string_view>
#include <utility>

#include "daemon/open_workshop.h"
#include "http/host_list.h"
#include "http/set_up_page.h"

namespace benchwarden::daemon {
namespace {

std::string_view data_file(const DataFileSet& files, std::string_view path) {
  const auto found = std::find_if(files.all().begin(), files.all().end(),
                                  [&](const base::DataFile& file) { return file.path == path; });
  return found == files.all().end() ? std::string_view() : found->bytes;
}

/// Files of a certificate that cannot be used count as those of the configuration do, our own with
/// them: faults found are a book's. A fault of the machine keeps its own code.
Exit unusable(const base::Error& error) {
  const Exit exit = fail(error);
  const bool is_of_files =
      error.code == base::ErrorCode::kInvalid || error.code == base::ErrorCode::kDamaged;
  return is_of_files ? Exit::kBadData : exit;
}

std::string with_port(const std::string& host, std::uint16_t port) {
  return host + ":" + std::to_string(port);
}

}  // namespace

base::Result<std::unique_ptr<Front>, Exit> Front::open(const Config& config, Network network,
                                                       const DataFileSet& files, Log& log) {
  std::unique_ptr<Front> front(new Front(config, std::move(network), files, log));
  if (front->network_.is_secure) {
    auto certificates = certificates_for(config, front->network_, front->clock_);
    if (!certificates) return unusable(certificates.error());
    front->certificates_ = *std::move(certificates);
    if (const auto authority = front->certificates_->authority()) {
      front->ending_.emplace(authority->ends);
    }
  }
  const auto taken = front->take_ports();
  if (!taken) return fail(taken.error());
  return front;
}

Front::Front(const Config& config, Network network, const DataFileSet& files, Log& log)
    : config_(config), network_(std::move(network)), files_(files), log_(log) {}

base::Status<> Front::take_ports() {
  auto app = http::Listener::open(app_settings());
  if (!app) return app.error();
  app_port_ = app->port();
  app_listener_.emplace(*std::move(app));
  if (!certificates_) return base::Done{};
  auto set_up = http::Listener::open(set_up_settings());
  if (!set_up) return set_up.error();
  set_up_port_ = set_up->port();
  set_up_listener_.emplace(*std::move(set_up));
  return base::Done{};
}

http::ServerSettings Front::common_settings() const {
  http::ServerSettings settings;
  settings.address = config_.address;
  settings.hosts.push_back(http::host_of_address(config_.address));
  settings.hosts.push_back(http::host_of_address(http::plain_address(config_.address)));
  if (network_.is_secure) settings.hosts.push_back(network_.name);
  if (http::is_any_address(config_.address)) settings.host_addresses = http::HostAddresses::kAny;
  return settings;
}

http::ServerSettings Front::app_settings() const {
  http::ServerSettings settings = common_settings();
  settings.port = config_.port;
  settings.workers = config_.connections_max + 4;  // one a connection, a few to refuse the rest
  for (const std::string& name : config_.host_names) settings.hosts.push_back(name);
  if (config_.behind_proxy) settings.tls_hosts = config_.host_names;
  settings.guard.connections_max = static_cast<std::size_t>(config_.connections_max);
  settings.guard.connections_per_peer_max =
      static_cast<std::size_t>(config_.connections_per_peer_max);
  settings.strict_host = network_.name;
  if (certificates_) settings.certificate = certificates_->serving();
  return settings;
}

http::ServerSettings Front::set_up_settings() const {
  constexpr int kConnectionsMax = 16;  // a page that a tablet opens once
  http::ServerSettings settings = common_settings();
  settings.port = config_.set_up_port.value_or(kSetUpPort);
  settings.workers = kConnectionsMax + 4;
  settings.guard.connections_max = kConnectionsMax;
  settings.guard.connections_per_peer_max = kConnectionsMax / 2;
  return settings;
}

http::Application Front::set_up_page() const {
  http::SetUpFacts facts;
  facts.name = network_.name;
  facts.app_port = app_port_;
  facts.authority = certificates_->authority();
  facts.addresses = [this] { return numbers(); };
  return http::set_up_application({data_file(files_, "forms/wording/set-up.html"),
                                   data_file(files_, "forms/wording/set-up-given.html"),
                                   data_file(files_, "forms/wording/set-up.css")},
                                  facts);
}

/// A certificate that was given is for a name; only our own is for addresses in numbers, too.
std::vector<std::string> Front::numbers() const {
  if (!certificates_->authority()) return {};
  if (http::is_any_address(config_.address)) return network_.present();
  return {http::plain_address(config_.address)};
}

http::Addresses Front::addresses() const {
  if (!certificates_) {
    return {"http://" + with_port(http::host_of_address(config_.address), app_port_), {}, {}};
  }
  http::Addresses addresses{"https://" + with_port(network_.name, app_port_), {}, {}};
  if (const auto authority = certificates_->authority()) {
    addresses.set_up = "http://" + with_port(network_.name, set_up_port_);
    addresses.ca_fingerprint = authority->fingerprint;
  }
  return addresses;
}

base::Status<Exit> Front::start(http::Application application) {
  if (certificates_) {
    auto set_up =
        http::Server::start(set_up_settings(), *std::move(set_up_listener_), set_up_page());
    if (!set_up) return fail(set_up.error());
    set_up_ = *std::move(set_up);
  }
  auto app = http::Server::start(app_settings(), *std::move(app_listener_), std::move(application));
  if (!app) return fail(app.error());
  app_ = *std::move(app);
  announce();
  tell_of_ending();
  return base::Done{};
}

void Front::announce() const {
  const http::Addresses ours = addresses();
  std::cout << "Benchwarden " << BENCHWARDEN_VERSION << " on " << ours.app << std::endl;
  if (!certificates_) return;
  std::string set_up = "http://" + with_port(network_.name, set_up_port_);
  if (ours.ca_fingerprint && numbers().empty()) {
    std::cout
        << "  This machine has no private address now, such as 192.168.1.20: until it has one, "
           "tablets reach it by the name only"
        << std::endl;
  }
  for (const std::string& address : numbers()) {
    const std::string host = http::host_of_address(address);
    std::cout << "  also on https://" << with_port(host, app_port_) << std::endl;
    set_up += " or http://" + with_port(host, set_up_port_);
  }
  std::cout << "Set up a tablet at " << set_up << std::endl;
  if (ours.ca_fingerprint) {
    std::cout << "SHA-256 fingerprint of the certificate it has to trust: " << *ours.ca_fingerprint
              << std::endl;
  }
}

bool Front::has_new_authority() const {
  const auto authority = certificates_ ? certificates_->authority() : std::nullopt;
  return authority && authority->is_new;
}

void Front::tell_of_new_authority() const {
  std::cout << "The certificate authority of this workshop is a new one, since "
            << (config_.data_folder / "tls").string()
            << " held none: every tablet has to be set up again. Its SHA-256 fingerprint: "
            << certificates_->authority()->fingerprint << std::endl;
}

/// What to do then cannot be done by the program: devices trust no other authority by themselves.
void Front::tell_of_ending() {
  if (!ending_ || !ending_->is_due(clock_.now())) return;
  log_.write(Severity::kWarning, "authority-ends",
             "the certificate authority of this workshop ends at " +
                 base::format_rfc3339_utc(certificates_->authority()->ends) +
                 "; before that, move " + (config_.data_folder / "tls").string() +
                 " away, start again and set every tablet up anew");
}

void Front::look_after() {
  if (!certificates_) return;
  tell_of_ending();
  const auto refreshed = certificates_->refresh();
  if (!refreshed) {
    return log_.write_once(Severity::kError, "certificate-stays", refreshed.error().detail);
  }
  log_.settled("certificate-stays");
  if (*refreshed == http::CertificateSource::Refreshed::kRenewed) {
    std::cout << "The certificate of the server is a new one; tablets need nothing." << std::endl;
  }
}

void Front::stop() {
  if (set_up_) set_up_->stop();
  app_->stop();
}

}  // namespace benchwarden::daemon
