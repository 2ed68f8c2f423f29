// What a raw client can send to confuse the server about where a request ends, and the answers.
#include <gtest/gtest.h>

#include <thread>

#include "http/library_faults.h"
#include "http/server_fixture.h"

namespace benchwarden::http {
namespace {

class Framing : public ServerFixture {
 protected:
  /// Sends a POST whose body is itself a request: if the server leaves the body on the wire and
  /// goes on reading, the hidden request is carried out.
  void expect_no_smuggling(const std::string& path, const std::string& fields, int status) {
    const std::string hidden = get("/api/v1/hidden");
    const auto answer = ask_once(
        head("POST " + path, fields + "Content-Length: " + std::to_string(hidden.size()) + "\r\n") +
        hidden);
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->status, status);
    EXPECT_TRUE(answer->closes());
    EXPECT_EQ(hidden_reached_, 0);
  }
};

constexpr const char* kJson = "Content-Type: application/json\r\n";

TEST_F(Framing, DoesNotTakeTheUnreadBodyOfAnUnknownPathForARequest) {
  expect_no_smuggling("/api/v1/nowhere", kJson, 404);
}

TEST_F(Framing, DoesNotTakeTheUnreadBodyOfAWrongMethodForARequest) {
  expect_no_smuggling("/api/v1/hidden", kJson, 405);
}

TEST_F(Framing, DoesNotTakeTheUnreadBodyOfAWrongTypeForARequest) {
  expect_no_smuggling("/api/v1/echo", "Content-Type: text/plain\r\n", 415);
  EXPECT_EQ(echoes_, 0);
}

TEST_F(Framing, DoesNotTakeTheBodyOfARefusedPersonForARequest) {
  const std::string hidden = get("/api/v1/hidden");
  RawClient client(port());
  ASSERT_TRUE(client.send(post("/api/v1/manage", hidden)));
  const auto answer = client.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 401);
  // The body was read whole, so the connection may live on, and the next request is the next one.
  ASSERT_TRUE(client.send(get("/api/v1/secret/x")));
  const auto next = client.read_answer();
  ASSERT_TRUE(next);
  EXPECT_EQ(next->status, 401);
  EXPECT_EQ(hidden_reached_, 0);
}

TEST_F(Framing, RefusesABodyOnAGet) {
  const std::string hidden = get("/api/v1/hidden");
  const auto answer =
      ask_once(head("GET /", "Content-Length: " + std::to_string(hidden.size()) + "\r\n") + hidden);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 400);
  EXPECT_EQ(hidden_reached_, 0);
}

TEST_F(Framing, RefusesContentLengthWithTransferEncoding) {
  const auto answer =
      ask_once(head("POST /api/v1/echo",
                    std::string(kJson) + "Content-Length: 5\r\nTransfer-Encoding: chunked\r\n") +
               "0\r\n\r\n" + get("/api/v1/hidden"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 400);
  EXPECT_EQ(echoes_ + hidden_reached_, 0);
}

TEST_F(Framing, RefusesTwoContentLengths) {
  const auto answer =
      ask_once(head("POST /api/v1/echo", std::string(kJson) + "Content-Length: 2\r\n"
                                                              "Content-Length: 40\r\n") +
               "{}" + get("/api/v1/hidden"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 400);
  EXPECT_EQ(echoes_ + hidden_reached_, 0);
}

TEST_F(Framing, RefusesTwoEqualContentLengths) {
  const auto answer =
      ask_once(head("POST /api/v1/echo", std::string(kJson) + "Content-Length: 2\r\n"
                                                              "content-length: 2\r\n") +
               "{}");
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 400);
  EXPECT_EQ(echoes_, 0);
}

TEST_F(Framing, ClosesUnansweredOnALengthTheLibraryCannotRead) {
  for (const std::string length : {"abc", "99999999999999999999", "5 5"}) {
    const std::uint64_t faults_before = library_faults_counted();
    RawClient client(port());
    ASSERT_TRUE(client.send(
        head("POST /api/v1/echo", std::string(kJson) + "Content-Length: " + length + "\r\n")));
    EXPECT_EQ(client.read_to_end(), "") << length;
    EXPECT_GT(library_faults_counted(), faults_before) << length;
  }
  EXPECT_EQ(echoes_, 0);
}

TEST_F(Framing, RefusesALengthThatIsNotOnlyDigits) {
  for (const std::string length : {"-1", "+2"}) {
    const auto answer = ask_once(
        head("POST /api/v1/echo", std::string(kJson) + "Content-Length: " + length + "\r\n") +
        "{}");
    ASSERT_TRUE(answer) << length;
    EXPECT_EQ(answer->status, 400) << length;
  }
  EXPECT_EQ(echoes_, 0);
}

TEST_F(Framing, RefusesChunksBeforeReadingThem) {
  for (const std::string chunks : {"zz\r\n", "2\r\n{}\r\n0\r\n\r\n"}) {
    const auto answer =
        ask_once(head("POST /api/v1/echo", std::string(kJson) + "Transfer-Encoding: chunked\r\n") +
                 chunks + get("/api/v1/hidden"));
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->status, 501);
    EXPECT_EQ(answer->header("content-type"), "application/problem+json");
  }
  EXPECT_EQ(echoes_ + hidden_reached_, 0);
}

TEST_F(Framing, RefusesAPostWithoutLengthAtOnce) {
  const auto began = std::chrono::steady_clock::now();
  RawClient client(port());
  ASSERT_TRUE(client.send(head("POST /api/v1/echo", kJson)));
  const auto answer = client.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 411);
  EXPECT_TRUE(answer->closes());
  EXPECT_LT(std::chrono::steady_clock::now() - began, short_settings().guard.header);
}

TEST_F(Framing, RefusesABodyOverTheLimitWithoutReadingIt) {
  const auto answer =
      ask_once(head("POST /api/v1/echo", std::string(kJson) + "Content-Length: 65537\r\n"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 413);
}

TEST_F(Framing, TakesABodyOfExactlyTheLimit) {
  const std::string body(65536, ' ');
  const auto answer = ask(post("/api/v1/echo", body));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
  EXPECT_EQ(answer->body, body);
}

TEST_F(Framing, TheAnswerToATooLargeBodyArrivesThoughTheBodyWasSent) {
  RawClient client(port());
  const std::string body(70000, ' ');
  ASSERT_TRUE(client.send(post("/api/v1/echo", body)));
  const auto answer = client.read_answer();
  ASSERT_TRUE(answer) << "the connection was reset";
  EXPECT_EQ(answer->status, 413);
}

TEST_F(Framing, ARefusedClientMayGoOnSendingForAWhile) {
  RawClient client(port());
  ASSERT_TRUE(
      client.send(head("POST /api/v1/nowhere", std::string(kJson) + "Content-Length: 40000\r\n")));
  const auto answer = client.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 404);
  for (int i = 0; i < 4; ++i) {
    EXPECT_TRUE(client.send(std::string(1000, ' '))) << "reset after " << i;
    std::this_thread::sleep_for(short_settings().guard.draining / 10);
  }
}

TEST_F(Framing, DoesNotAskForABodyItWillRefuse) {
  const auto answer =
      ask_once(head("POST /api/v1/echo",
                    std::string(kJson) + "Expect: 100-continue\r\nContent-Length: 1000000\r\n"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 413) << "100 would mean that the body was asked for";
}

TEST_F(Framing, AsksForABodyItWillRead) {
  RawClient client(port());
  ASSERT_TRUE(client.send(head(
      "POST /api/v1/echo", std::string(kJson) + "Expect: 100-continue\r\nContent-Length: 2\r\n")));
  const auto interim = client.read_answer();
  ASSERT_TRUE(interim);
  EXPECT_EQ(interim->status, 100);
  ASSERT_TRUE(client.send("{}"));
  const auto answer = client.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
  EXPECT_EQ(answer->body, "{}");
}

TEST_F(Framing, AnswersABodyThatEndsEarly) {
  const auto began = std::chrono::steady_clock::now();
  RawClient client(port());
  ASSERT_TRUE(
      client.send(head("POST /api/v1/echo", std::string(kJson) + "Content-Length: 10\r\n") + "{}"));
  const auto answer = client.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 408);
  EXPECT_TRUE(answer->closes());
  EXPECT_GE(std::chrono::steady_clock::now() - began, short_settings().guard.body);
  EXPECT_EQ(echoes_, 0);
}

TEST_F(Framing, AnswersPipelinedRequestsInOrder) {
  RawClient client(port());
  ASSERT_TRUE(client.send(post("/api/v1/echo", "1") + post("/api/v1/echo", "2") + get("/")));
  for (const std::string wanted : {"1", "2", "<!doctype html>"}) {
    const auto answer = client.read_answer();
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->status, 200);
    EXPECT_EQ(answer->body, wanted);
  }
}

TEST_F(Framing, RefusesAControlByteInAHeaderValue) {
  for (const std::string& bad :
       {std::string("a\0b", 3), std::string("a\x01"), std::string("\x7f")}) {
    const auto answer = ask(head("GET /", "X-Note: " + bad + "\r\n"));
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->status, 400);
  }
}

TEST_F(Framing, AFieldAfterABareLineFeedIsCheckedLikeAnyOther) {
  const auto second_host = ask(head("GET /", "X-Note: a\nHost: evil.example\r\n"));
  ASSERT_TRUE(second_host);
  EXPECT_EQ(second_host->status, 400);
  const auto chunked = ask_once(
      head("POST /api/v1/echo", std::string(kJson) + "X-Note: a\nTransfer-Encoding: chunked\r\n") +
      "0\r\n\r\n");
  ASSERT_TRUE(chunked);
  EXPECT_EQ(chunked->status, 501);
}

TEST_F(Framing, RefusesABlankBeforeTheColon) {
  const auto answer =
      ask_once(head("POST /api/v1/echo", std::string(kJson) + "Content-Length : 5\r\n"
                                                              "Content-Length: 2\r\n") +
               "{}" + get("/api/v1/hidden"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 400);
  EXPECT_EQ(hidden_reached_, 0);
}

TEST_F(Framing, RefusesATargetThatIsNoPath) {
  for (const std::string line : {"GET http://127.0.0.1/", "OPTIONS *", "GET api"}) {
    const auto answer = ask(head(line));
    ASSERT_TRUE(answer) << line;
    EXPECT_EQ(answer->status, 400) << line;
  }
}

TEST_F(Framing, AnswersAnUnknownVersionInOurs) {
  const auto answer = ask("GET / HTTP/3.0\r\nHost: " + host() + "\r\n\r\n");
  ASSERT_TRUE(answer) << "the status line does not begin with HTTP/1.1";
  EXPECT_EQ(answer->status, 400);
}

TEST_F(Framing, LeavesHeadsOverTheLimitsOfTheLibraryToIt) {
  std::string many_fields;
  for (int i = 0; i < 120; ++i) {
    many_fields += "X-" + std::to_string(i) + ": 1\r\n";
  }
  const std::vector<std::string> heads = {
      head("GET /", "X-Note: " + std::string(9000, 'a') + "\r\n"),
      head("GET /", std::string(300, 'N') + ": a\r\n"),
      head("GET /", many_fields),
      get("/" + std::string(17000, 'a')),
  };
  for (const std::string& bytes : heads) {
    const auto answer = ask_once(bytes);
    ASSERT_TRUE(answer) << bytes.substr(0, 60);
    EXPECT_EQ(answer->status, 400);
    EXPECT_EQ(answer->body, "") << "the library answers bare, before anything of ours is asked";
  }
  EXPECT_TRUE(access_lines().empty());
}

}  // namespace
}  // namespace benchwarden::http
