#include "http/screening.h"

#include <gtest/gtest.h>

#include "http/credential.h"

namespace benchwarden::http {
namespace {

ScreeningRules rules() {
  return {HostList({"Localhost", "[::1]", "book.example:8443", "far.example"}, 8417),
          HostList({"far.example"}, 8417), "benchwarden_session", "benchwarden_device", 100};
}

RequestHead head(const std::string& method, HeaderFields fields) {
  fields.emplace_back("Host", "localhost:8417");
  return {method, "/api/v1/entries?limit=5", "HTTP/1.1", std::move(fields), "127.0.0.1", false};
}

int body_status(const RequestHead& sent) {
  const auto request = screen_head(sent, rules());
  if (!request) {
    return request.error().status;
  }
  const auto refusal = screen_body(sent, *request, rules(), nullptr);
  return refusal ? refusal->status : 0;
}

HeaderFields json_body(HeaderFields further = {}) {
  further.insert(further.end(), {{"Content-Type", "application/json"}, {"Content-Length", "2"}});
  return further;
}

std::optional<Credential> credential_of(const HeaderFields& fields) {
  const auto credential = read_credential(head("GET", fields), "benchwarden_session");
  EXPECT_TRUE(credential.ok());
  return credential.ok() ? *credential : std::nullopt;
}

TEST(HostList, KnowsNamesWithAndWithoutOurPort) {
  const HostList hosts = rules().hosts;
  for (const std::string name :
       {"localhost", "LOCALHOST:8417", "[::1]", "[::1]:8417", "book.example:8443"}) {
    EXPECT_TRUE(hosts.contains(name)) << name;
  }
  for (const std::string name :
       {"", "localhost:80", "localhost.evil.example", "evil.example", "book.example",
        "book.example:8417", "localhost:8417:8417", "::1"}) {
    EXPECT_FALSE(hosts.contains(name)) << name;
  }
}

TEST(HostList, TellsAHostFromWhatIsNone) {
  for (const char* host : {"Book.example", "book.example:8443", "[::1]", "10.0.0.5"}) {
    EXPECT_TRUE(is_host(host)) << host;
  }
  for (const char* other : {"", "not a host!", "https://book.example", "book_1"}) {
    EXPECT_FALSE(is_host(other)) << other;
  }
}

TEST(HostList, KnowsAnAddressAsABrowserNamesIt) {
  EXPECT_EQ(host_of_address("192.0.2.2"), "192.0.2.2");
  EXPECT_EQ(host_of_address("2001:db8::5"), "[2001:db8::5]");
  const HostList hosts({host_of_address("2001:db8::5")}, 8417);
  EXPECT_TRUE(hosts.contains("[2001:db8::5]:8417"));
}

TEST(HostList, OnEveryAddressTakesAnyButNoOtherName) {
  const HostList hosts({"shop.local"}, 8417, HostAddresses::kAny);
  for (const std::string host :
       {"shop.local:8417", "192.168.1.20:8417", "192.168.1.20", "[fd00::5]:8417", "[fd00::5]"}) {
    EXPECT_TRUE(hosts.contains(host)) << host;
  }
  for (const std::string host : {"192.168.1.20:80", "evil.example:8417", "1.2.3.4.evil.example",
                                 "[evil]:8417", "fd00::5", "", ":8417"}) {
    EXPECT_FALSE(hosts.contains(host)) << host;
  }
  EXPECT_FALSE(HostList({"shop.local"}, 8417).contains("192.168.1.20:8417"));
}

TEST(Screening, TakesTheRequestApart) {
  const auto request = screen_head(
      head("GET", {{"If-None-Match", "\"a\""}, {"authorization", "bearer  t1 "}}), rules());
  ASSERT_TRUE(request.ok());
  EXPECT_EQ(request->path, "/api/v1/entries");
  EXPECT_EQ(*request->query.find("limit"), "5");
  EXPECT_EQ(request->host, "localhost:8417");
  EXPECT_EQ(request->if_none_match, "\"a\"");
  EXPECT_EQ(request->peer, "127.0.0.1");
  ASSERT_TRUE(request->credential);
  EXPECT_EQ(request->credential->token, "t1");
}

TEST(Screening, RefusesWhatDecidesTwice) {
  for (const std::string name : {"Host", "Origin", "Content-Type", "Content-Length",
                                 "Authorization", "Cookie", "If-None-Match", "Sec-Fetch-Site"}) {
    const auto request = screen_head(head("GET", {{name, "1"}, {ascii_lower(name), "1"}}), rules());
    ASSERT_FALSE(request.ok()) << name;
    EXPECT_EQ(request.error().status, 400) << name;
  }
}

TEST(Screening, RefusesOtherVersionsAndNamesThatAreNoTokens) {
  RequestHead other = head("GET", {});
  other.version = "HTTP/2.0";
  EXPECT_FALSE(screen_head(other, rules()).ok());
  EXPECT_FALSE(screen_head(head("GET", {{"X Note", "a"}}), rules()).ok());
  EXPECT_FALSE(screen_head(head("GET", {{"", "a"}}), rules()).ok());
  EXPECT_FALSE(screen_head(head("G(T", {}), rules()).ok());
  EXPECT_TRUE(screen_head(head("GET", {{"X-Note", "tab\there"}}), rules()).ok());
}

TEST(Screening, RefusesABadQuery) {
  RequestHead bad = head("GET", {});
  bad.target = "/api?a=1&a=2";
  const auto request = screen_head(bad, rules());
  ASSERT_FALSE(request.ok());
  EXPECT_EQ(request.error().status, 400);
}

TEST(Screening, AnUnsafeMethodNeedsOurOrigin) {
  EXPECT_EQ(body_status(head("POST", json_body())), 0);
  EXPECT_EQ(body_status(head("POST", json_body({{"Origin", "http://localhost:8417"}}))), 0);
  for (const std::string origin :
       {"https://localhost:8417", "https://far.example", "http://localhost", "null", "",
        "http://localhost:8417.evil.example"}) {
    EXPECT_EQ(body_status(head("POST", json_body({{"Origin", origin}}))), 403) << origin;
    EXPECT_EQ(body_status(head("DELETE", {{"Origin", origin}})), 403) << origin;
    EXPECT_EQ(body_status(head("GET", {{"Origin", origin}})), 0) << origin;
  }
}

TEST(Screening, WhatComesToANameThatAProxySpeaksTlsForIsFromHttpsAlone) {
  const auto sent = [](HeaderFields fields) {
    fields.emplace_back("Host", "far.example");
    return RequestHead{"POST", "/a", "HTTP/1.1", json_body(std::move(fields)), "127.0.0.1", false};
  };
  EXPECT_TRUE(screen_head(sent({}), rules())->is_tls);
  EXPECT_EQ(body_status(sent({{"Origin", "https://far.example"}})), 0);
  EXPECT_EQ(body_status(sent({{"Origin", "http://far.example"}})), 403);
  EXPECT_FALSE(screen_head(head("GET", {}), rules())->is_tls);
}

TEST(Screening, CookiesOfTlsHaveANameThatNobodyElseCanSet) {
  const auto shown = [](bool is_tls, const std::string& cookie) {
    RequestHead sent = head("GET", {{"Cookie", cookie}});
    sent.is_tls = is_tls;
    const auto request = screen_head(sent, rules());
    EXPECT_TRUE(request.ok());
    return request.ok() && request->credential && request->device_secret;
  };
  const std::string plain = "benchwarden_session=s; benchwarden_device=d";
  const std::string held = "__Host-benchwarden_session=s; __Host-benchwarden_device=d";
  EXPECT_TRUE(shown(true, held));
  EXPECT_FALSE(shown(true, plain));
  EXPECT_TRUE(shown(false, plain));
  EXPECT_FALSE(shown(false, held));
}

TEST(Screening, ACookieAloneDoesNotAuthoriseAnUnsafeMethod) {
  const HeaderFields cookie = {{"Cookie", "a=1; benchwarden_session=t1"}};
  EXPECT_EQ(body_status(head("POST", json_body(cookie))), 403);
  EXPECT_EQ(body_status(head("DELETE", cookie)), 403);
  EXPECT_EQ(body_status(head("GET", cookie)), 0);
  EXPECT_EQ(body_status(head("DELETE", {{"Cookie", "benchwarden_session=t1"},
                                        {"Origin", "http://localhost:8417"}})),
            0);
}

TEST(Screening, BelievesABrowserThatTheSiteIsAnother) {
  EXPECT_EQ(body_status(head("POST", json_body({{"Sec-Fetch-Site", "same-site"}}))), 403);
  EXPECT_EQ(body_status(head("POST", json_body({{"Sec-Fetch-Site", "same-origin"}}))), 0);
}

TEST(Screening, MeasuresBodyAndType) {
  EXPECT_EQ(body_status(head("POST", {{"Content-Type", "application/json"}})), 411);
  EXPECT_EQ(
      body_status(head("POST", {{"Content-Type", "application/json"}, {"Content-Length", "101"}})),
      413);
  EXPECT_EQ(body_status(head("POST", {{"Content-Type", "Application/JSON; charset=utf-8"},
                                      {"Content-Length", "100"}})),
            0);
  EXPECT_EQ(body_status(head("POST", {{"Content-Length", "2"}})), 415);
  EXPECT_EQ(
      body_status(head("POST", {{"Content-Type", "application/jsonp"}, {"Content-Length", "2"}})),
      415);
  EXPECT_EQ(body_status(head("DELETE", {{"Content-Length", "2"}})), 400);
  EXPECT_EQ(body_status(head("DELETE", {{"Content-Length", "0"}})), 0);
  EXPECT_EQ(body_status(head("DELETE", {})), 0);
}

TEST(Credential, IsTheBearerTokenBeforeTheCookie) {
  const auto both = credential_of(
      {{"Cookie", "benchwarden_session=from-cookie"}, {"Authorization", "Bearer from-header"}});
  ASSERT_TRUE(both);
  EXPECT_EQ(both->token, "from-header");
  EXPECT_EQ(both->from, Credential::From::kBearer);
  const auto cookie = credential_of({{"Cookie", "x=1; benchwarden_session=from-cookie; y=2"}});
  ASSERT_TRUE(cookie);
  EXPECT_EQ(cookie->token, "from-cookie");
  EXPECT_EQ(cookie->from, Credential::From::kCookie);
}

TEST(Credential, IsNothingForOtherSchemesNamesAndEmptyValues) {
  EXPECT_FALSE(credential_of({}));
  EXPECT_FALSE(credential_of({{"Authorization", "Basic abc"}}));
  EXPECT_FALSE(credential_of({{"Authorization", "Bearer "}}));
  EXPECT_FALSE(credential_of({{"Cookie", "xbenchwarden_session=1; benchwarden_session="}}));
  EXPECT_FALSE(credential_of(
      {{"Authorization", "Basic abc"}, {"Cookie", "benchwarden_session=from-cookie"}}));
}

TEST(Credential, IsRefusedWhenTheCookieComesTwice) {
  const auto credential =
      read_credential(head("GET", {{"Cookie", "benchwarden_session=a; benchwarden_session=b"}}),
                      "benchwarden_session");
  ASSERT_FALSE(credential.ok());
  EXPECT_EQ(credential.error().status, 400);
}

std::optional<std::string> device_secret_of(const HeaderFields& fields) {
  const auto request = screen_head(head("GET", fields), rules());
  EXPECT_TRUE(request.ok());
  return request.ok() ? request->device_secret : std::nullopt;
}

TEST(Screening, ReadsTheSecretOfADeviceBesideTheSession) {
  const std::string both = "benchwarden_device=d; benchwarden_session=s";
  EXPECT_EQ(device_secret_of({{"Cookie", both}}), "d");
  EXPECT_EQ(credential_of({{"Cookie", both}})->token, "s");
  EXPECT_EQ(device_secret_of({{"Cookie", "benchwarden_device=; other=x"}}), std::nullopt);
  EXPECT_EQ(device_secret_of({{"Cookie", both}, {"Authorization", "Bearer t"}}), std::nullopt);
  const auto twice =
      screen_head(head("GET", {{"Cookie", "benchwarden_device=d; benchwarden_device=d"}}), rules());
  ASSERT_FALSE(twice.ok());
  EXPECT_EQ(twice.error().status, 400);
}

TEST(Screening, WantsAnOriginOfADeviceAsOfASession) {
  const auto post = [](const std::string& cookie, HeaderFields further) {
    further.emplace_back("Cookie", cookie);
    return body_status(head("POST", json_body(std::move(further))));
  };
  const std::string device = "benchwarden_device=d";
  EXPECT_EQ(post(device, {}), 403);
  EXPECT_EQ(post(device, {{"Origin", "http://localhost:8417"}}), 0);
  EXPECT_EQ(post(device, {{"Origin", "http://other.example"}}), 403);
  EXPECT_EQ(post("other=x", {}), 0);
  EXPECT_EQ(body_status(head("DELETE", {{"Cookie", device}})), 403);
}

}  // namespace
}  // namespace benchwarden::http
