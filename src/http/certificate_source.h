#pragma once

#include <memory>
#include <optional>
#include <string>

#include "base/result.h"
#include "base/timestamp.h"
#include "http/serving_certificate.h"

namespace benchwarden::http {

/// Where the certificate of the server comes from, and the next one when its time has come.
class CertificateSource {
 public:
  /// What a device has to trust before it takes the certificate.
  struct Authority {
    std::string pem;
    std::string fingerprint;
    base::Instant ends;
    bool is_new = false;  ///< made by this start: no device can trust it yet
  };
  enum class Refreshed { kNothing, kRenewed };

  CertificateSource() = default;
  CertificateSource(const CertificateSource&) = delete;
  CertificateSource& operator=(const CertificateSource&) = delete;
  CertificateSource(CertificateSource&&) = delete;
  CertificateSource& operator=(CertificateSource&&) = delete;
  virtual ~CertificateSource() = default;

  /// The same object for as long as this lives.
  [[nodiscard]] virtual std::shared_ptr<const ServingCertificate> serving() const = 0;
  /// Nothing where devices trust the certificate without our doing.
  [[nodiscard]] virtual std::optional<Authority> authority() const = 0;
  /// To be called now and then, by one thread. After a failure the certificate of before stays.
  virtual base::Result<Refreshed> refresh() = 0;
};

}  // namespace benchwarden::http
