#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "daemon/commands.h"
#include "daemon/data_files.h"
#include "daemon/log.h"
#include "daemon/network.h"
#include "daemon/system_clock.h"
#include "http/api.h"
#include "http/ending_notice.h"
#include "http/server.h"

namespace benchwarden::daemon {

/// What the daemon shows to the network: the app, and where that speaks TLS the page that sets a
/// tablet up. Says on the console what people have to know of it.
class Front {
 public:
  /// Takes the ports, and makes or reads the certificates. The files outlive it.
  static base::Result<std::unique_ptr<Front>, Exit> open(const Config& config, Network network,
                                                         const DataFileSet& files, Log& log);
  Front(const Front&) = delete;
  Front& operator=(const Front&) = delete;
  ~Front() = default;

  /// Known before anything is served, for what is made of them.
  [[nodiscard]] http::Addresses addresses() const;
  /// Serves, and then prints the addresses.
  base::Status<Exit> start(http::Application application);
  /// Whether devices that were set up before have lost the authority they trust.
  [[nodiscard]] bool has_new_authority() const;
  /// Prints what to do about that.
  void tell_of_new_authority() const;
  /// To be called now and then: certificates end, and networks change.
  void look_after();
  void stop();
  /// What became of the connections to the app so far.
  [[nodiscard]] http::ServerCounters counters() const { return app_->counters(); }

 private:
  Front(const Config& config, Network network, const DataFileSet& files, Log& log);
  base::Status<> take_ports();
  [[nodiscard]] http::ServerSettings common_settings() const;
  [[nodiscard]] http::ServerSettings app_settings() const;
  [[nodiscard]] http::ServerSettings set_up_settings() const;
  [[nodiscard]] http::Application set_up_page() const;
  [[nodiscard]] std::vector<std::string> numbers() const;
  void announce() const;
  void tell_of_ending();

  const Config config_;
  const Network network_;
  const DataFileSet& files_;
  Log& log_;
  const SystemClock clock_;
  std::unique_ptr<http::CertificateSource> certificates_;  ///< of a secure network
  std::optional<http::EndingNotice> ending_;               ///< of an authority of our own
  std::optional<http::Listener> app_listener_;
  std::optional<http::Listener> set_up_listener_;
  std::uint16_t app_port_ = 0;
  std::uint16_t set_up_port_ = 0;
  std::unique_ptr<http::Server> set_up_;
  std::unique_ptr<http::Server> app_;
};

}  // namespace benchwarden::daemon
