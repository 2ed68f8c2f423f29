#include "http/set_up_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "http/dispatcher.h"

namespace benchwarden::http {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

class SetUpPage : public ::testing::Test {
 protected:
  Response answer(const std::string& method, const std::string& path) {
    const Dispatcher dispatcher(set_up_application(
        {"own {name}: {links}{fingerprint}", "given {name}: {links}", "css"}, facts_));
    const auto target = dispatcher.find(method, path);
    if (!target) return target.error();
    Request request;
    request.method = method;
    request.path = path;
    return dispatcher.answer(*target, request).response;
  }
  std::string page() { return std::string(body_bytes(answer("GET", "/"))); }

  std::vector<std::string> present_{"192.168.1.20", "fd00::5"};
  SetUpFacts facts_{"shop.local", 8417, [this] { return present_; },
                    CertificateSource::Authority{"PEM", "00:11:22:33:44:55:66:77:88:99", {}}};
};

TEST_F(SetUpPage, LeadsToTheAppByNameAndByTheAddressesOfNow) {
  EXPECT_THAT(page(), AllOf(HasSubstr("own shop.local: "),
                            HasSubstr("<a href=\"https://shop.local:8417/\">"),
                            HasSubstr("<a href=\"https://192.168.1.20:8417/\">"),
                            HasSubstr("<a href=\"https://[fd00::5]:8417/\">")));
  present_ = {"10.0.0.7"};
  EXPECT_THAT(page(), AllOf(HasSubstr("https://10.0.0.7:8417/"),
                            ::testing::Not(HasSubstr("192.168.1.20"))));
}

TEST_F(SetUpPage, ShowsTheFingerprintInRows) {
  EXPECT_THAT(page(), HasSubstr("<span>00:11:22:33:44:55:66:77</span>\n<span>88:99</span>"));
}

TEST_F(SetUpPage, GivesTheCertificateAsAFile) {
  const Response response = answer("GET", "/benchwarden.crt");
  EXPECT_EQ(response.status, 200);
  EXPECT_EQ(response.content_type, "application/x-x509-ca-cert");
  EXPECT_EQ(body_bytes(response), "PEM");
  EXPECT_THAT(response.headers,
              ::testing::Contains(::testing::Pair("Content-Disposition", HasSubstr("attachment"))));
}

TEST_F(SetUpPage, HasNothingElse) {
  EXPECT_EQ(answer("GET", "/set-up.css").status, 200);
  EXPECT_EQ(answer("GET", "/api/v1/health").status, 404);
  EXPECT_EQ(answer("GET", "/app.js").status, 404);
  EXPECT_EQ(answer("POST", "/").status, 405);
}

TEST_F(SetUpPage, WithAGivenCertificateNothingIsToBeInstalled) {
  facts_.authority.reset();
  EXPECT_THAT(page(), HasSubstr("given shop.local: "));
  EXPECT_EQ(answer("GET", "/benchwarden.crt").status, 404);
}

}  // namespace
}  // namespace benchwarden::http
