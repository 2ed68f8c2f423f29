// The server over TLS: who is taken, what is shown, and clients that do not play along.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <openssl/ssl.h>

#include <filesystem>
#include <thread>
#include <vector>

#include "http/authority.h"
#include "http/hand_clock.h"
#include "http/server_fixture.h"
#include "http/tls_client.h"

namespace benchwarden::http {
namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

class Tls : public ServerFixture {
 protected:
  void SetUp() override { start(tls_settings()); }

  ServerSettings tls_settings() {
    ServerSettings settings = short_settings();
    settings.hosts.emplace_back("shop.local");
    settings.certificate = serving_;
    settings.strict_host = "shop.local";
    return settings;
  }
  CertifiedKey new_server() {
    return issue(authority_, {"shop.local", "127.0.0.1"}, clock_.now()).value();
  }
  TlsClient::Settings device(const std::string& host = "shop.local", int version = 0) {
    return {certificate_pem(authority_), host, version};
  }
  [[nodiscard]] std::string at(const std::string& host, const std::string& line,
                               const std::string& fields = "") const {
    return line + " HTTP/1.1\r\nHost: " + host + ":" + std::to_string(port()) + "\r\n" + fields +
           "Connection: close\r\n\r\n";
  }
  std::string answer(const std::string& request, const std::string& host = "shop.local",
                     int version = 0) {
    TlsClient client(port(), device(host, version));
    if (!client.shake_hands() || !client.send(request)) return "no connection";
    return client.read();
  }
  static std::size_t descriptors() {
    const std::filesystem::directory_iterator all("/proc/self/fd");
    return static_cast<std::size_t>(std::distance(begin(all), end(all)));
  }

  HandClock clock_;
  CertifiedKey authority_ = make_authority("shop.local", HandClock().now()).value();
  std::shared_ptr<ServingCertificate> serving_ = std::make_shared<ServingCertificate>(new_server());
};

TEST_F(Tls, AnswersByNameAndByAddress) {
  EXPECT_THAT(answer(at("shop.local", "GET /")), StartsWith("HTTP/1.1 200 "));
  EXPECT_THAT(answer(at("127.0.0.1", "GET /"), "127.0.0.1"), StartsWith("HTTP/1.1 200 "));
  EXPECT_EQ(answer(at("other.local", "GET /"), "other.local"), "no connection");
  EXPECT_THAT(answer(at("other.local", "GET /")), StartsWith("HTTP/1.1 421 "));
}

TEST_F(Tls, SpeaksTls12AndLaterOnly) {
  const std::string get = at("shop.local", "GET /");
  EXPECT_THAT(answer(get, "shop.local", TLS1_3_VERSION), StartsWith("HTTP/1.1 200 "));
  EXPECT_THAT(answer(get, "shop.local", TLS1_2_VERSION), StartsWith("HTTP/1.1 200 "));
  EXPECT_EQ(answer(get, "shop.local", TLS1_1_VERSION), "no connection");
}

TEST_F(Tls, ADeviceThatDoesNotTrustTheAuthorityTurnsAway) {
  const CertifiedKey other = make_authority("shop.local", clock_.now()).value();
  TlsClient client(port(), {certificate_pem(other), "shop.local", 0});
  EXPECT_FALSE(client.shake_hands());
  EXPECT_THAT(answer(at("shop.local", "GET /")), StartsWith("HTTP/1.1 200 "));
}

TEST_F(Tls, PagesOfItsOwnOriginMayWrite) {
  const std::string body = "Content-Type: application/json\r\nContent-Length: 0\r\nOrigin: ";
  const auto posted = [&](const std::string& scheme) {
    return answer(at("shop.local", "POST /api/v1/echo",
                     body + scheme + "://shop.local:" + std::to_string(port()) + "\r\n"));
  };
  EXPECT_THAT(posted("https"), StartsWith("HTTP/1.1 200 "));
  EXPECT_THAT(posted("http"), StartsWith("HTTP/1.1 403 "));
}

TEST_F(Tls, BrowsersAreToldToStayWithItUnderTheNameOnly) {
  constexpr const char* kField = "Strict-Transport-Security: max-age=31536000";
  EXPECT_THAT(answer(at("shop.local", "GET /")), HasSubstr(kField));
  EXPECT_THAT(answer(at("SHOP.LOCAL", "GET /")), HasSubstr(kField));
  EXPECT_THAT(answer(at("127.0.0.1", "GET /"), "127.0.0.1"), Not(HasSubstr("Strict-Transport")));
  start();
  EXPECT_EQ(ask(get("/"))->header("strict-transport-security"), "") << "plain HTTP";
}

TEST_F(Tls, AnotherCertificateIsShownToWhoeverConnectsNext) {
  TlsClient before(port(), device());
  ASSERT_TRUE(before.shake_hands());
  serving_->put(new_server());
  TlsClient after(port(), device());
  ASSERT_TRUE(after.shake_hands());
  EXPECT_NE(before.fingerprint(), after.fingerprint());
  EXPECT_EQ(after.fingerprint(), fingerprint_of(*serving_->current()));
  ASSERT_TRUE(before.send(at("shop.local", "GET /")));
  EXPECT_THAT(before.read(), StartsWith("HTTP/1.1 200 ")) << "a standing connection goes on";
}

TEST_F(Tls, CertificatesMayChangeWhileManyConnect) {
  std::atomic<int> served = 0;
  std::vector<std::thread> devices;
  for (int i = 0; i < 4; ++i) {
    devices.emplace_back([&] {
      for (int n = 0; n < 10; ++n) {
        if (answer(at("shop.local", "GET /")).starts_with("HTTP/1.1 200 ")) ++served;
      }
    });
  }
  for (int n = 0; n < 20; ++n) serving_->put(new_server());
  for (std::thread& one : devices) one.join();
  EXPECT_EQ(served, 40);
}

TEST_F(Tls, PlainHttpIsTurnedAwayWithoutHarm) {
  RawClient client(port());
  ASSERT_TRUE(client.send(get("/api/v1/hidden")));
  const auto told = client.read_answer();
  ASSERT_TRUE(told);
  EXPECT_EQ(told->status, 400);
  EXPECT_EQ(told->header("content-type"), "text/plain; charset=utf-8");
  EXPECT_EQ(told->header("x-content-type-options"), "nosniff");
  EXPECT_EQ(told->header("location"), "");
  EXPECT_THAT(told->body, HasSubstr("https://"));
  EXPECT_EQ(client.read_to_end(), "") << "one answer, and the end";
  EXPECT_EQ(hidden_reached_, 0);
  EXPECT_THAT(answer(at("shop.local", "GET /")), StartsWith("HTTP/1.1 200 "));
}

TEST_F(Tls, PlainHttpIsToldSoAlsoWhileItGoesOnSending) {
  RawClient client(port());
  ASSERT_TRUE(client.send(post("/api/v1/echo", std::string(20'000, 'x'))));
  EXPECT_EQ(client.read_answer()->status, 400);
  EXPECT_EQ(echoes_, 0);
}

TEST_F(Tls, WhatIsNeitherTlsNorHttpGetsNoAnswer) {
  RawClient client(port());
  ASSERT_TRUE(client.send("get / http/1.1\r\n\r\n"));
  const auto said = client.read_to_end();
  ASSERT_TRUE(said);
  EXPECT_THAT(*said, Not(HasSubstr("HTTP")));
}

TEST_F(Tls, ASilentHandshakeIsCut) {
  RawClient client(port());
  const auto began = steady_clock::now();
  EXPECT_TRUE(client.read_to_end());
  const auto lasted = steady_clock::now() - began;
  EXPECT_GE(lasted, short_settings().guard.header - milliseconds(50));
  EXPECT_LT(lasted, short_settings().guard.header + kSlack);
  EXPECT_EQ(server_->counters().guard.cut_awaiting, 1U);
}

TEST_F(Tls, AHandshakeThatDripsIsCutAndHoldsUpNobody) {
  RawClient client(port());
  const auto began = steady_clock::now();
  // The head of a record that announces 512 bytes of a greeting, which then come one by one.
  ASSERT_TRUE(client.send(std::string("\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", 11)));
  EXPECT_THAT(answer(at("shop.local", "GET /")), StartsWith("HTTP/1.1 200 "));
  while (steady_clock::now() - began < milliseconds(5000)) {
    if (client.read_to_end(milliseconds(50)) || !client.send("x")) break;
  }
  EXPECT_LT(steady_clock::now() - began, short_settings().guard.header + kSlack);
}

TEST_F(Tls, ABodyThatDoesNotComeIsAnsweredAllTheSame) {
  TlsClient client(port(), device());
  ASSERT_TRUE(client.shake_hands());
  ASSERT_TRUE(client.send(at("shop.local", "POST /api/v1/echo",
                             "Content-Type: application/json\r\nContent-Length: 900\r\n")));
  EXPECT_THAT(client.read(), StartsWith("HTTP/1.1 408 "));
}

TEST_F(Tls, ConnectionsLeaveNothingBehind) {
  EXPECT_THAT(answer(at("shop.local", "GET /")), StartsWith("HTTP/1.1 200 "));
  std::this_thread::sleep_for(milliseconds(200));
  const std::size_t before = descriptors();
  for (int i = 0; i < 8; ++i) {
    RawClient client(port());
    ASSERT_TRUE(client.send("rubbish\r\n\r\n"));
    client.read_to_end();
    TlsClient left(port(), device());
    ASSERT_TRUE(left.shake_hands());
  }
  const auto began = steady_clock::now();
  while (descriptors() > before && steady_clock::now() - began < milliseconds(5000)) {
    std::this_thread::sleep_for(milliseconds(20));
  }
  EXPECT_LE(descriptors(), before);
}

TEST_F(Tls, StopsWhileHandshakesHang) {
  ServerSettings settings = tls_settings();
  settings.guard.header = milliseconds(60'000);
  start(settings);
  const RawClient silent(port());
  std::this_thread::sleep_for(milliseconds(100));
  const auto began = steady_clock::now();
  server_->stop();
  EXPECT_LT(steady_clock::now() - began, milliseconds(2000));
}

}  // namespace
}  // namespace benchwarden::http
