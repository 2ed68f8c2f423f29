// The authority of our own: what its certificates say, and the files they are kept in.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <openssl/x509v3.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "http/authority.h"
#include "http/hand_clock.h"
#include "http/own_certificates.h"
#include "sqlite/temporary_folder.h"

namespace benchwarden::http {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr std::int64_t kDayMs = HandClock::kDayMs;

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream bytes;
  bytes << stream.rdbuf();
  return bytes.str();
}

void write(const std::filesystem::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

unsigned mode_of(const std::filesystem::path& path) {
  struct stat facts {};
  EXPECT_EQ(::stat(path.c_str(), &facts), 0) << path;
  return facts.st_mode & 07777U;
}

bool is_critical(const CertifiedKey& certified, int extension) {
  const int at = X509_get_ext_by_NID(certified.certificate.get(), extension, -1);
  return at >= 0 && X509_EXTENSION_get_critical(X509_get_ext(certified.certificate.get(), at)) == 1;
}

class Authority : public ::testing::Test {
 protected:
  [[nodiscard]] CertifiedKey for_names(const std::vector<std::string>& names) const {
    auto issued = issue(authority_, names, clock_.now());
    EXPECT_TRUE(issued.ok());
    return std::move(issued).value();
  }
  [[nodiscard]] std::string verdict_on(const std::vector<std::string>& names) const {
    const auto verified = verify_issued(authority_, for_names(names), clock_.now());
    return verified ? "taken" : verified.error().detail;
  }

  HandClock clock_;
  CertifiedKey authority_ = make_authority("shop.local", clock_.now()).value();
};

TEST_F(Authority, MayNameServersAndNoFurtherAuthority) {
  X509* certificate = authority_.certificate.get();
  EXPECT_EQ(X509_get_pathlen(certificate), 0);
  EXPECT_EQ(X509_check_ca(certificate), 1);
  EXPECT_EQ(X509_get_key_usage(certificate), unsigned{KU_KEY_CERT_SIGN | KU_CRL_SIGN});
  EXPECT_TRUE(is_critical(authority_, NID_name_constraints));
  EXPECT_TRUE(is_critical(authority_, NID_basic_constraints));
  EXPECT_EQ(name_of_authority(authority_), "shop.local");
  EXPECT_EQ(ends_at(authority_).ms - begins_at(authority_).ms, kAuthorityDays * kDayMs);
}

TEST_F(Authority, NamesAServerForItsNamesAndAddresses) {
  const CertifiedKey server = for_names({"shop.local", "192.168.1.20", "::1"});
  X509* certificate = server.certificate.get();
  EXPECT_THAT(names_in(server), ElementsAre("192.168.1.20", "::1", "shop.local"));
  EXPECT_EQ(X509_check_ca(certificate), 0);
  EXPECT_EQ(X509_get_extended_key_usage(certificate), unsigned{XKU_SSL_SERVER});
  EXPECT_EQ(X509_get_key_usage(certificate), unsigned{KU_DIGITAL_SIGNATURE});
  EXPECT_EQ(EVP_PKEY_get_bits(server.key.get()), 256);
  EXPECT_EQ(ends_at(server).ms - begins_at(server).ms, kServerDays * kDayMs);
  EXPECT_TRUE(is_for_name(server, "shop.local"));
  EXPECT_FALSE(is_for_name(server, "other.local"));
  EXPECT_EQ(fingerprint_of(server).size(), 95U);
  EXPECT_NE(fingerprint_of(server), fingerprint_of(for_names({"shop.local"})));
}

TEST_F(Authority, VouchesForItsNameAndPrivateAddressesOnly) {
  for (const std::string name : {"bench.shop.local", "localhost", "10.1.2.3", "172.31.0.1",
                                 "192.168.0.9", "169.254.3.4", "127.0.0.1", "::1", "fd00::5"}) {
    EXPECT_EQ(verdict_on({"shop.local", name}), "taken") << name;
  }
  for (const std::string name :
       {"other.local", "bank.example", "notshop.local", "203.0.113.5", "2001:db8::1"}) {
    EXPECT_THAT(verdict_on({"shop.local", name}), HasSubstr("permitted subtree")) << name;
  }
  EXPECT_THAT(verdict_on({"bank.example"}), HasSubstr("permitted subtree"));
}

TEST_F(Authority, IsTrustedWithinItsTimeOnly) {
  const CertifiedKey server = for_names({"shop.local"});
  EXPECT_TRUE(verify_issued(authority_, server, {clock_.now().ms + 395 * kDayMs}).ok());
  EXPECT_FALSE(verify_issued(authority_, server, {clock_.now().ms + 397 * kDayMs}).ok());
  EXPECT_FALSE(verify_issued(authority_, server, {clock_.now().ms - 2 * kDayMs}).ok());
  const CertifiedKey other = make_authority("shop.local", clock_.now()).value();
  EXPECT_FALSE(verify_issued(other, server, clock_.now()).ok());
}

TEST_F(Authority, NeverNamesAServerForLongerThanItself) {
  clock_.pass_days(kAuthorityDays - 100);
  EXPECT_EQ(ends_at(for_names({"shop.local"})), ends_at(authority_));
}

class Files : public ::testing::Test {
 protected:
  base::Result<std::unique_ptr<OwnCertificates>> try_open(const std::string& name = "shop.local") {
    return OwnCertificates::open(folder_.path(), {name, {"localhost"}, [this] { return present_; }},
                                 clock_);
  }
  void open() {
    auto opened = try_open();
    ASSERT_TRUE(opened.ok()) << opened.error().detail;
    own_ = std::move(opened).value();
  }
  void expect_refused(const std::string& file, const std::string& why,
                      const std::string& name = "shop.local") {
    const auto opened = try_open(name);
    ASSERT_FALSE(opened.ok());
    EXPECT_EQ(opened.error().code, base::ErrorCode::kDamaged);
    EXPECT_THAT(opened.error().detail, ::testing::AllOf(HasSubstr(file), HasSubstr(why)));
  }
  CertificateSource::Refreshed refreshed() {
    const auto result = own_->refresh();
    EXPECT_TRUE(result.ok()) << result.error().detail;
    return result.ok() ? *result : CertificateSource::Refreshed::kNothing;
  }
  [[nodiscard]] std::string shown() const { return fingerprint_of(*own_->serving()->current()); }
  [[nodiscard]] std::filesystem::path file(const std::string& name) const {
    return folder_.path() / "tls" / name;
  }

  benchwarden::testing::TemporaryFolder folder_;
  HandClock clock_;
  std::vector<std::string> present_{"192.168.1.20"};
  std::unique_ptr<OwnCertificates> own_;
};

TEST_F(Files, AreTheirOwnersOnly) {
  ::umask(0);
  open();
  EXPECT_EQ(mode_of(file("authority.pem")), 0600U);
  EXPECT_EQ(mode_of(file("server.pem")), 0600U);
  EXPECT_EQ(mode_of(file("")), 0700U);
}

TEST_F(Files, GiveTheSameCertificatesAtTheNextStart) {
  open();
  const std::string authority = own_->authority()->fingerprint;
  const std::string server = shown();
  EXPECT_THAT(own_->authority()->pem, HasSubstr("BEGIN CERTIFICATE"));
  EXPECT_THAT(own_->authority()->pem, ::testing::Not(HasSubstr("PRIVATE")));
  open();
  EXPECT_EQ(own_->authority()->fingerprint, authority);
  EXPECT_EQ(shown(), server);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kNothing);
}

TEST_F(Files, SayWhenTheAuthorityEndsAndWhetherThisStartMadeIt) {
  open();
  EXPECT_TRUE(own_->authority()->is_new);
  EXPECT_EQ(own_->authority()->ends.ms, clock_.now().ms + (kAuthorityDays - 1) * kDayMs);
  open();
  EXPECT_FALSE(own_->authority()->is_new);
  std::filesystem::remove_all(file(""));
  open();
  EXPECT_TRUE(own_->authority()->is_new);
}

TEST_F(Files, AServersCertificateIsRenewedSixtyDaysBeforeItsEnd) {
  open();
  const std::string first = shown();
  clock_.pass_days(kServerDays - kRenewedAtDaysLeft - 1);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kNothing);
  clock_.pass_days(1);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kRenewed);
  const std::string second = shown();
  EXPECT_NE(second, first);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kNothing);
  open();
  EXPECT_EQ(shown(), second) << "the new one was kept";
}

TEST_F(Files, AServersCertificateFollowsTheAddresses) {
  open();
  present_ = {"10.0.0.7"};
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kRenewed);
  EXPECT_THAT(names_in(*own_->serving()->current()),
              ElementsAre("10.0.0.7", "localhost", "shop.local"));
  present_ = {"10.0.0.8"};
  const std::string before = shown();
  open();
  EXPECT_NE(shown(), before) << "and at a start";
}

TEST_F(Files, AtTheEndOfTheAuthorityNothingIsRenewedInVain) {
  open();
  clock_.pass_days(kAuthorityDays - 30);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kRenewed);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kNothing);
  clock_.pass_days(30);
  expect_refused("authority.pem", "its time ended at ");
}

TEST_F(Files, AMachineThatLostItsTimeServesAllTheSame) {
  open();
  const std::string server = shown();
  clock_.pass_days(-1000);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kNothing);
  open();
  EXPECT_EQ(shown(), server);
  present_ = {"10.0.0.7"};
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kRenewed);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kNothing);
  clock_.pass_days(1000);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kNothing);
}

TEST_F(Files, ACertificateFromAClockThatWasFastIsMadeAnew) {
  clock_.pass_days(200);
  open();
  present_ = {"10.0.0.7"};
  clock_.pass_days(100);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kRenewed);
  clock_.pass_days(-100);
  EXPECT_EQ(refreshed(), CertificateSource::Refreshed::kRenewed);
}

TEST_F(Files, AMissingServerIsMadeAnewByTheSameAuthority) {
  open();
  const std::string authority = own_->authority()->fingerprint;
  std::filesystem::remove(file("server.pem"));
  open();
  EXPECT_EQ(own_->authority()->fingerprint, authority);
  EXPECT_TRUE(std::filesystem::exists(file("server.pem")));
}

TEST_F(Files, AnAuthorityIsNeverReplacedByItself) {
  open();
  const std::string authority = bytes_of(file("authority.pem"));
  std::filesystem::remove(file("authority.pem"));
  expect_refused("authority.pem", "put it back from a copy");
  write(file("authority.pem"), "rubbish");
  expect_refused("authority.pem", "no certificate in PEM");
  expect_refused("authority.pem", "; put it back from a copy, or move its folder away");
  write(file("authority.pem"), authority.substr(authority.find("-----BEGIN CERTIFICATE")));
  expect_refused("authority.pem", "no private key");
  write(file("authority.pem"), authority);
  expect_refused("authority.pem", "name = \"shop.local\"", "barn.local");
  open();
}

TEST_F(Files, AServerThatDoesNotFitIsNamed) {
  open();
  const std::string authority = bytes_of(file("authority.pem"));
  const std::string server = bytes_of(file("server.pem"));
  write(file("server.pem"), authority.substr(0, authority.find("-----BEGIN CERTIFICATE")) +
                                server.substr(server.find("-----BEGIN CERTIFICATE")));
  expect_refused("server.pem", "not that of the certificate; remove it");
  write(file("server.pem"), server.substr(0, server.size() / 2));
  expect_refused("server.pem", "remove it");
  const CertifiedKey other = make_authority("shop.local", clock_.now()).value();
  const CertifiedKey foreign =
      issue(other, {"shop.local", "localhost", "192.168.1.20"}, clock_.now()).value();
  write(file("server.pem"), whole_pem(foreign).value());
  expect_refused("server.pem", "does not fit authority.pem");
}

}  // namespace
}  // namespace benchwarden::http
