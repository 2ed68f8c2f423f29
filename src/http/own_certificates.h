#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "base/clock.h"
#include "http/certificate_source.h"
#include "http/network_names.h"

namespace benchwarden::http {

/// An authority of our own and certificates by it, kept in `tls` below the data folder:
/// `authority.pem` and `server.pem`, each with key and certificate in one file, so that no crash
/// leaves one without the other.
class OwnCertificates : public CertificateSource {
 public:
  /// Names and addresses the certificates are for. `present` is asked at each refresh.
  struct For {
    std::string name;
    std::vector<std::string> always;  ///< beside the name
    PresentAddresses present;
  };

  /// Makes the authority where there are no files at all. Devices trust the one they know, so
  /// that another is never made by itself: kDamaged where a file is lost, damaged, or of another
  /// name. `clock` outlives this.
  static base::Result<std::unique_ptr<OwnCertificates>> open(
      const std::filesystem::path& data_folder, const For& wanted, const base::Clock& clock);

  [[nodiscard]] std::shared_ptr<const ServingCertificate> serving() const override {
    return serving_;
  }
  [[nodiscard]] std::optional<Authority> authority() const override;
  /// Makes another one when few days are left, or when names or addresses are others.
  base::Result<Refreshed> refresh() override;

 private:
  OwnCertificates(std::filesystem::path folder, For wanted, const base::Clock& clock);
  [[nodiscard]] std::vector<std::string> wanted_names() const;
  [[nodiscard]] bool is_due(const CertifiedKey& server) const;
  [[nodiscard]] base::Status<> verify(const CertifiedKey& server) const;
  [[nodiscard]] base::Result<CertifiedKey> make_server() const;
  [[nodiscard]] base::Result<CertifiedKey> first_server() const;

  const std::filesystem::path folder_;
  const For wanted_;
  const base::Clock& clock_;
  CertifiedKey authority_;
  bool is_new_ = false;
  std::shared_ptr<ServingCertificate> serving_;
};

}  // namespace benchwarden::http
