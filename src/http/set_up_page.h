#pragma once

#include <string>
#include <string_view>

#include "http/application.h"
#include "http/certificate_source.h"
#include "http/network_names.h"

namespace benchwarden::http {

/// What the page about setting up a tablet is made of.
struct SetUpTexts {
  std::string_view own;    ///< HTML: the certificate of our authority is to be installed
  std::string_view given;  ///< HTML: devices trust the certificate as it is
  std::string_view style;  ///< CSS of both
};

struct SetUpFacts {
  std::string name;  ///< of this machine in the network
  std::uint16_t app_port = 0;
  PresentAddresses addresses;  ///< asked whenever the page is
  std::optional<CertificateSource::Authority> authority;
};

/// What is served by plain HTTP beside the app: how a tablet learns to trust it, and our
/// certificate. Nothing of the interface. The style and the facts are kept; the texts outlive it.
Application set_up_application(const SetUpTexts& texts, const SetUpFacts& facts);

}  // namespace benchwarden::http
