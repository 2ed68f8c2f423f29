#include "http/own_certificates.h"

#include <algorithm>
#include <utility>

#include "access/private_file.h"
#include "http/authority.h"
#include "http/certified_key.h"

namespace benchwarden::http {
namespace {

constexpr const char* kAuthorityFile = "authority.pem";
constexpr const char* kServerFile = "server.pem";

base::Error damaged(const std::filesystem::path& file, const std::string& what) {
  return {base::ErrorCode::kDamaged, file.string() + ": " + what};
}

base::Result<CertifiedKey> read_own(const std::filesystem::path& file) {
  const auto pem = access::read_private_file(file, kPemBytesMax);
  if (!pem && pem.error().code == base::ErrorCode::kNotFound) return pem.error();
  if (!pem) return base::Error{base::ErrorCode::kDamaged, pem.error().detail};
  auto certified = read_certified_key(*pem, *pem);
  if (!certified) return damaged(file, certified.error().detail);
  return certified;
}

base::Status<> write_own(const std::filesystem::path& file, const CertifiedKey& certified) {
  const auto pem = whole_pem(certified);
  if (!pem) return pem.error();
  return access::replace_private_file(file, *pem);
}

struct Opened {
  CertifiedKey authority;
  bool is_new = false;
};

base::Result<Opened> make_first_authority(const std::filesystem::path& folder,
                                          const std::string& name, base::Instant now) {
  if (std::error_code failure; std::filesystem::exists(folder / kServerFile, failure)) {
    return damaged(folder / kAuthorityFile,
                   "missing, though devices may trust it: put it back from a copy. Where there is "
                   "none, move the folder away; every device must then be set up anew");
  }
  auto made = make_authority(name, now);
  if (!made) return made.error();
  const auto kept = write_own(folder / kAuthorityFile, *made);
  if (!kept) return kept.error();
  return Opened{*std::move(made), true};
}

base::Status<> check_authority(const std::filesystem::path& file, const CertifiedKey& authority,
                               const std::string& name, base::Instant now) {
  const std::string anew = "; or move its folder away, and set every device up anew";
  if (const std::string own = name_of_authority(authority); own != name) {
    return damaged(file, "made for the name '" + own + "', not for '" + name +
                             "'; accepted: the setting name = \"" + own + "\"" + anew);
  }
  if (now >= ends_at(authority)) {
    return damaged(file, "its time ended at " + base::format_rfc3339_utc(ends_at(authority)) +
                             "; move its folder away, and set every device up anew");
  }
  return base::Done{};
}

base::Result<Opened> open_authority(const std::filesystem::path& folder, const std::string& name,
                                    base::Instant now) {
  const std::filesystem::path file = folder / kAuthorityFile;
  auto authority = read_own(file);
  if (!authority && authority.error().code == base::ErrorCode::kNotFound) {
    return make_first_authority(folder, name, now);
  }
  if (!authority) {
    return base::Error{authority.error().code,
                       authority.error().detail +
                           "; put it back from a copy, or move its folder away, and set every "
                           "device up anew"};
  }
  const auto checked = check_authority(file, *authority, name, now);
  if (!checked) return checked.error();
  return Opened{*std::move(authority), false};
}

}  // namespace

base::Result<std::unique_ptr<OwnCertificates>> OwnCertificates::open(
    const std::filesystem::path& data_folder, const For& wanted, const base::Clock& clock) {
  const std::filesystem::path folder = data_folder / "tls";
  std::error_code failure;
  std::filesystem::create_directory(folder, failure);
  if (!failure) {
    std::filesystem::permissions(folder, std::filesystem::perms::owner_all, failure);
  }
  if (failure) {
    return base::Error{base::ErrorCode::kUnavailable, folder.string() + ": " + failure.message()};
  }
  auto authority = open_authority(folder, wanted.name, clock.now());
  if (!authority) return authority.error();
  std::unique_ptr<OwnCertificates> opened(new OwnCertificates(folder, wanted, clock));
  opened->authority_ = std::move(authority->authority);
  opened->is_new_ = authority->is_new;
  auto server = opened->first_server();
  if (!server) return server.error();
  opened->serving_ = std::make_shared<ServingCertificate>(*std::move(server));
  return opened;
}

OwnCertificates::OwnCertificates(std::filesystem::path folder, For wanted, const base::Clock& clock)
    : folder_(std::move(folder)), wanted_(std::move(wanted)), clock_(clock) {}

std::optional<CertificateSource::Authority> OwnCertificates::authority() const {
  return Authority{certificate_pem(authority_), fingerprint_of(authority_), ends_at(authority_),
                   is_new_};
}

/// The name stands first: the subject is called by it.
std::vector<std::string> OwnCertificates::wanted_names() const {
  std::vector<std::string> names{wanted_.name};
  names.insert(names.end(), wanted_.always.begin(), wanted_.always.end());
  for (std::string& address : wanted_.present()) names.push_back(std::move(address));
  return names;
}

bool OwnCertificates::is_due(const CertifiedKey& server) const {
  const base::Instant now = clock_.now();
  std::vector<std::string> names = wanted_names();
  std::sort(names.begin(), names.end());
  // One that ends with the authority itself cannot be made to last longer.
  const bool is_ending = ends_at(server).ms - now.ms < kRenewedAtDaysLeft * base::kDayMs &&
                         ends_at(server) < ends_at(authority_);
  const bool is_early = now < begins_at(server) && begins_at(authority_) < begins_at(server);
  return is_ending || is_early || names_in(server) != names;
}

/// A machine that lost its time at a power cut is to serve all the same: the others know the time.
base::Status<> OwnCertificates::verify(const CertifiedKey& server) const {
  return verify_issued(authority_, server, std::max(clock_.now(), begins_at(server)));
}

base::Result<CertifiedKey> OwnCertificates::make_server() const {
  auto server = issue(authority_, wanted_names(), clock_.now());
  if (!server) return server.error();
  const auto verified = verify(*server);
  if (!verified) {
    return damaged(folder_ / kAuthorityFile,
                   "no device would take a certificate by it: " + verified.error().detail);
  }
  const auto kept = write_own(folder_ / kServerFile, *server);
  if (!kept) return kept.error();
  return server;
}

base::Result<CertifiedKey> OwnCertificates::first_server() const {
  const std::filesystem::path file = folder_ / kServerFile;
  auto server = read_own(file);
  if (!server && server.error().code == base::ErrorCode::kNotFound) return make_server();
  if (!server) {
    return base::Error{server.error().code,
                       server.error().detail + "; remove it, and another is made at the start"};
  }
  if (is_due(*server)) return make_server();
  const auto verified = verify(*server);
  if (!verified) {
    return damaged(file,
                   "does not fit authority.pem beside it (" + verified.error().detail +
                       "); where that one is as it was, remove this one, and another is made at "
                       "the start");
  }
  return server;
}

base::Result<CertificateSource::Refreshed> OwnCertificates::refresh() {
  if (!is_due(*serving_->current())) return Refreshed::kNothing;
  auto server = make_server();
  if (!server) return server.error();
  serving_->put(*std::move(server));
  return Refreshed::kRenewed;
}

}  // namespace benchwarden::http
