// The running server towards a well-behaved client, and towards a browser that is being misled.
#include <gtest/gtest.h>

#include <thread>

#include "http/server_fixture.h"

namespace benchwarden::http {
namespace {

class ServerTest : public ServerFixture {};

TEST_F(ServerTest, RefusesARequestWithoutHost) {
  const auto answer = ask("GET / HTTP/1.1\r\n\r\n");
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 400);
}

TEST_F(ServerTest, RefusesAForeignHost) {
  const auto answer = ask("GET / HTTP/1.1\r\nHost: evil.example\r\n\r\n");
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 421);
  EXPECT_NE(answer->body.find("\"/problems/misdirected\""), std::string::npos);
}

TEST_F(ServerTest, AnswersOptionsWithoutGivingLeave) {
  const auto known = ask(head("OPTIONS /api/v1/echo",
                              "Origin: http://evil.example\r\n"
                              "Access-Control-Request-Method: POST\r\n"));
  ASSERT_TRUE(known);
  EXPECT_EQ(known->status, 405);
  EXPECT_EQ(known->header("allow"), "POST");
  EXPECT_EQ(known->header("access-control-allow-origin"), "");
  const auto unknown = ask(head("OPTIONS /api/v1/nowhere"));
  ASSERT_TRUE(unknown);
  EXPECT_EQ(unknown->status, 404);
}

TEST_F(ServerTest, AnswersHeadAsGetWithoutBody) {
  RawClient client(port());
  ASSERT_TRUE(client.send(head("HEAD /api/v1/hidden") + get("/api/v1/hidden")));
  const auto to_head = client.read_answer(RawClient::To::kHead);
  ASSERT_TRUE(to_head);
  EXPECT_EQ(to_head->status, 200);
  EXPECT_EQ(to_head->header("content-length"), "6");
  const auto to_get = client.read_answer();
  ASSERT_TRUE(to_get) << "a body was sent after HEAD";
  EXPECT_EQ(to_get->body, "hidden");
}

TEST_F(ServerTest, ServesAFileAndThenThatItIsUnchanged) {
  RawClient client(port());
  ASSERT_TRUE(client.send(get("/")));
  const auto first = client.read_answer();
  ASSERT_TRUE(first);
  EXPECT_EQ(first->body, "<!doctype html>");
  EXPECT_EQ(first->header("content-type"), "text/html; charset=utf-8");
  EXPECT_EQ(first->header("cache-control"), "no-cache");
  const std::string tag = first->header("etag");
  EXPECT_EQ(tag.size(), 18U);
  ASSERT_TRUE(client.send(head("GET /", "If-None-Match: " + tag + "\r\n") + get("/")));
  const auto second = client.read_answer();
  ASSERT_TRUE(second);
  EXPECT_EQ(second->status, 304);
  EXPECT_EQ(second->header("etag"), tag);
  const auto third = client.read_answer();
  ASSERT_TRUE(third);
  EXPECT_EQ(third->status, 200);
}

TEST_F(ServerTest, ServesAFilePackedToThoseWhoTakeIt) {
  const std::string takes = "Accept-Encoding: br, gzip\r\n";
  const auto packed = ask(head("GET /", takes));
  ASSERT_TRUE(packed);
  EXPECT_EQ(packed->body, "packed page");
  EXPECT_EQ(packed->header("content-encoding"), "gzip");
  EXPECT_EQ(packed->header("vary"), "Accept-Encoding");
  const std::string held = "If-None-Match: " + packed->header("etag") + "\r\n";
  EXPECT_EQ(ask(head("GET /", takes + held))->status, 304);
  EXPECT_EQ(ask(head("GET /", held))->body, "<!doctype html>") << "the tag of other bytes";
}

TEST_F(ServerTest, CarriesTheSecurityHeadersOnEveryAnswerOfOurs) {
  for (const std::string path :
       {"/", "/api/v1/hidden", "/api/v1/nowhere", "/api/v1/throws/std", "/api/v1/secret/a"}) {
    const auto answer = ask(get(path));
    ASSERT_TRUE(answer) << path;
    EXPECT_EQ(answer->header("x-content-type-options"), "nosniff") << path;
    EXPECT_EQ(answer->header("referrer-policy"), "same-origin") << path;
    EXPECT_EQ(answer->header("cross-origin-opener-policy"), "same-origin") << path;
    EXPECT_EQ(answer->header("cross-origin-resource-policy"), "same-origin") << path;
    EXPECT_NE(answer->header("content-security-policy").find("default-src 'none'"),
              std::string::npos)
        << path;
    EXPECT_EQ(answer->header("cache-control"), path == "/" ? "no-cache" : "no-store") << path;
    EXPECT_EQ(answer->header("server"), "") << path;
  }
}

TEST_F(ServerTest, TurnsWhateverAHandlerThrowsIntoABare500AndALogLine) {
  for (const std::string what : {"std", "poco", "int"}) {
    const auto answer = ask(get("/api/v1/throws/" + what));
    ASSERT_TRUE(answer) << what;
    EXPECT_EQ(answer->status, 500) << what;
    EXPECT_EQ(answer->header("content-type"), "application/problem+json");
    EXPECT_EQ(answer->body.find("inner"), std::string::npos) << answer->body;
  }
  const std::vector<std::string> lines = faults();
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0], "/api/v1/throws/{what}: inner detail");
}

TEST_F(ServerTest, AsksForAForeignOriginsRequestToStayAway) {
  const auto echo_with = [&](const std::string& fields) {
    const auto answer = ask(head("POST /api/v1/echo",
                                 "Content-Type: application/json\r\n"
                                 "Content-Length: 2\r\n" +
                                     fields) +
                            "{}");
    return answer ? answer->status : 0;
  };
  EXPECT_EQ(echo_with("Origin: http://evil.example\r\n"), 403);
  EXPECT_EQ(echo_with("Origin: null\r\n"), 403);
  EXPECT_EQ(echo_with("Cookie: benchwarden_session=manager-token\r\n"), 403);
  EXPECT_EQ(echo_with("Sec-Fetch-Site: cross-site\r\n"), 403);
  EXPECT_EQ(echoes_, 0);
  EXPECT_EQ(echo_with("Origin: http://" + host() + "\r\n"), 200);
  EXPECT_EQ(echo_with("Authorization: Bearer manager-token\r\n"), 200);
  EXPECT_EQ(echo_with(""), 200);
}

TEST_F(ServerTest, ChecksTheRoleOfThePersonSignedIn) {
  const auto manage_as = [&](const std::string& token) {
    const auto answer = ask(head("POST /api/v1/manage",
                                 "Content-Type: application/json\r\n"
                                 "Content-Length: 2\r\n"
                                 "Authorization: Bearer " +
                                     token + "\r\n") +
                            "{}");
    return answer ? answer->status : 0;
  };
  EXPECT_EQ(manage_as("unknown"), 401);
  EXPECT_EQ(manage_as("inspector-token"), 403);
  EXPECT_EQ(manage_as("manager-token"), 200);
}

TEST_F(ServerTest, LogsThePatternAndNeverWhatWasAskedFor) {
  const auto answer =
      ask(head("GET /api/v1/secret/hush?word=hush", "Authorization: Bearer manager-token\r\n"));
  ASSERT_TRUE(answer);
  ASSERT_EQ(answer->status, 200);
  server_->stop();  // the line is written after the answer
  const std::vector<AccessLine> lines = access_lines();
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].method, "GET");
  EXPECT_EQ(lines[0].pattern, "/api/v1/secret/{word}");
  EXPECT_EQ(lines[0].person, "p1");
  EXPECT_EQ(lines[0].status, 200);
  EXPECT_EQ(lines[0].peer, "127.0.0.1");
}

TEST_F(ServerTest, AClientThatLeavesBeforeItsAnswerHurtsNobody) {
  for (int i = 0; i < 5; ++i) {
    RawClient client(port());
    ASSERT_TRUE(client.send(get("/api/v1/large")));
  }
  const auto answer = ask(get("/"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
}

TEST_F(ServerTest, ASecondServerCannotShareThePort) {
  ServerSettings settings = short_settings();
  settings.port = port();
  const auto second = Server::start(settings, Application());
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.error().code, base::ErrorCode::kUnavailable);
}

TEST_F(ServerTest, DoesNotStartWithSettingsThatCannotWork) {
  ServerSettings settings = short_settings();
  settings.workers = 0;
  EXPECT_FALSE(Server::start(settings, Application()).ok());
  settings = short_settings();
  settings.hosts.clear();
  EXPECT_FALSE(Server::start(settings, Application()).ok());
  settings = short_settings();
  settings.address = "not an address";
  EXPECT_FALSE(Server::start(settings, Application()).ok());
  Application application;
  application.routes = {{Method::kGet, "/a", Who::open(), Effect::kReads, {}}};
  EXPECT_FALSE(Server::start(short_settings(), application).ok());
}

TEST_F(ServerTest, AnswersSixtyFourClientsAtOnceEveryTime) {
  constexpr int kClients = 64;
  constexpr int kRequests = 50;
  ServerSettings settings = short_settings();
  settings.workers = kClients;
  settings.guard = {};
  settings.guard.connections_max = kClients;
  settings.guard.connections_per_peer_max = kClients;
  start(settings);
  std::atomic<int> answered = 0;
  std::vector<std::thread> clients;
  clients.reserve(kClients);
  for (int i = 0; i < kClients; ++i) {
    clients.emplace_back([&, i] {
      RawClient client(port());
      for (int k = 0; k < kRequests; ++k) {
        const std::string body = std::to_string(i) + "/" + std::to_string(k);
        if (!client.send(post("/api/v1/echo", body))) {
          return;
        }
        const auto answer = client.read_answer();
        answered += answer && answer->status == 200 && answer->body == body ? 1 : 0;
      }
    });
  }
  for (std::thread& client : clients) {
    client.join();
  }
  EXPECT_EQ(answered, kClients * kRequests);
  EXPECT_EQ(echoes_, kClients * kRequests);
}

}  // namespace
}  // namespace benchwarden::http
