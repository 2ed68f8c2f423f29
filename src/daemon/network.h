#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/clock.h"
#include "daemon/config.h"
#include "http/certificate_source.h"
#include "http/network_names.h"

namespace benchwarden::daemon {

/// How the daemon is reached, decided from the configuration.
struct Network {
  bool is_secure = false;           ///< by TLS; else by plain HTTP, on this machine alone
  std::string name;                 ///< in the network; of a secure one
  std::vector<std::string> always;  ///< what else its own certificate is for
  http::PresentAddresses present;   ///< addresses besides, which come and go
};

/// kInvalid where settings do not fit together.
base::Result<Network> network_of(const Config& config);

/// For a secure network. `clock` outlives it.
base::Result<std::unique_ptr<http::CertificateSource>> certificates_for(const Config& config,
                                                                        const Network& network,
                                                                        const base::Clock& clock);

}  // namespace benchwarden::daemon
