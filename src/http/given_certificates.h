#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "base/clock.h"
#include "http/certificate_source.h"

namespace benchwarden::http {

/// A certificate the workshop got elsewhere: two PEM files, read anew whenever their content
/// changes. Nothing is written.
class GivenCertificates : public CertificateSource {
 public:
  struct Files {
    std::filesystem::path certificate;  ///< with its chain behind it
    std::filesystem::path key;
  };

  /// kInvalid: files that cannot be read or do not fit each other, a certificate that is not for
  /// `name`, or one whose time is over. `clock` outlives this.
  static base::Result<std::unique_ptr<GivenCertificates>> open(const Files& files,
                                                               const std::string& name,
                                                               const base::Clock& clock);

  [[nodiscard]] std::shared_ptr<const ServingCertificate> serving() const override {
    return serving_;
  }
  [[nodiscard]] std::optional<Authority> authority() const override { return std::nullopt; }
  base::Result<Refreshed> refresh() override;

 private:
  struct Texts {
    std::string certificate;
    std::string key;
    friend bool operator==(const Texts&, const Texts&) = default;
  };
  GivenCertificates(Files files, std::string name, const base::Clock& clock);
  [[nodiscard]] base::Result<Texts> read_texts() const;
  [[nodiscard]] base::Result<CertifiedKey> accept(const Texts& texts) const;

  const Files files_;
  const std::string name_;
  const base::Clock& clock_;
  Texts texts_;
  std::shared_ptr<ServingCertificate> serving_;
};

}  // namespace benchwarden::http
