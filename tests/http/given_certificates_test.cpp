// A certificate the workshop brought itself.
#include "http/given_certificates.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "http/authority.h"
#include "http/hand_clock.h"
#include "sqlite/temporary_folder.h"

namespace benchwarden::http {
namespace {

using ::testing::HasSubstr;
using Refreshed = CertificateSource::Refreshed;

class Given : public ::testing::Test {
 protected:
  void SetUp() override { put(issued()); }

  CertifiedKey issued(const std::string& name = "book.shop.local") {
    return issue(authority_, {name}, clock_.now()).value();
  }
  void put(const CertifiedKey& certified) {
    write("server.crt", certificate_pem(certified) + certificate_pem(authority_));
    write("server.key", key_pem(certified));
  }
  static std::string key_pem(const CertifiedKey& certified) {
    const std::string whole = whole_pem(certified).value();
    return whole.substr(0, whole.find("-----BEGIN CERTIFICATE"));
  }
  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_.path() / name, std::ios::binary) << bytes;
  }
  base::Result<std::unique_ptr<GivenCertificates>> open(
      const std::string& name = "book.shop.local") {
    return GivenCertificates::open({folder_.path() / "server.crt", folder_.path() / "server.key"},
                                   name, clock_);
  }
  std::string why_not(const std::string& name = "book.shop.local") {
    const auto opened = open(name);
    if (opened) return "taken";
    EXPECT_EQ(opened.error().code, base::ErrorCode::kInvalid);
    return opened.error().detail;
  }

  benchwarden::testing::TemporaryFolder folder_;
  HandClock clock_;
  CertifiedKey authority_ = make_authority("shop.local", clock_.now()).value();
};

TEST_F(Given, IsShownWithItsChain) {
  const auto given = open();
  ASSERT_TRUE(given.ok()) << given.error().detail;
  EXPECT_EQ((*given)->serving()->current()->chain.size(), 1U);
  EXPECT_FALSE((*given)->authority());
}

TEST_F(Given, MustFitNameKeyAndTime) {
  EXPECT_THAT(why_not("shop.local"), HasSubstr("not for the name 'shop.local' but for book.shop"));
  write("server.key", key_pem(issued()));
  EXPECT_THAT(why_not(), HasSubstr("the private key is not that of the certificate"));
  write("server.key", "rubbish");
  EXPECT_THAT(why_not(), HasSubstr("no private key in PEM"));
  write("server.crt", "");
  EXPECT_THAT(why_not(), HasSubstr("server.crt"));
  std::filesystem::remove(folder_.path() / "server.crt");
  EXPECT_THAT(why_not(), HasSubstr("server.crt: No such file"));
  put(issued());
  clock_.pass_days(kServerDays);
  EXPECT_THAT(why_not(), HasSubstr("its time ended at "));
}

TEST_F(Given, IsReadAnewWhenTheFilesChange) {
  auto given = open();
  ASSERT_TRUE(given.ok());
  GivenCertificates& source = **given;
  const std::string first = fingerprint_of(*source.serving()->current());
  EXPECT_EQ(*source.refresh(), Refreshed::kNothing);
  write("server.key", "half written");
  const auto half = source.refresh();
  ASSERT_FALSE(half.ok());
  EXPECT_EQ(fingerprint_of(*source.serving()->current()), first) << "what was there stays";
  put(issued());
  EXPECT_EQ(*source.refresh(), Refreshed::kRenewed);
  EXPECT_NE(fingerprint_of(*source.serving()->current()), first);
}

}  // namespace
}  // namespace benchwarden::http
