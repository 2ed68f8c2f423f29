#include <gtest/gtest.h>

#include <thread>

#include "http/server_fixture.h"

namespace benchwarden::http {
namespace {

using std::chrono::milliseconds;

constexpr const char* kManagerToken = "manager-token";
constexpr const char* kExpect = "Expect: 100-continue\r\n";

class OwnBodies : public ServerFixture {
 protected:
  [[nodiscard]] std::string upload_head(std::size_t length, const std::string& more = "",
                                        const std::string& token = kManagerToken,
                                        const std::string& type = "image/png") const {
    return head("POST /api/v1/upload",
                "Authorization: Bearer " + token + "\r\nContent-Type: " + type +
                    "\r\nContent-Length: " + std::to_string(length) + "\r\n" + more);
  }
  [[nodiscard]] std::string upload(std::size_t length) const {
    return upload_head(length) + std::string(length, 'x');
  }
  /// Of a request that asks before it sends its body: 100 where the body is wanted.
  [[nodiscard]] int first_status(const std::string& sent) const {
    RawClient client(port());
    EXPECT_TRUE(client.send(sent));
    const auto answer = client.read_answer();
    return answer ? answer->status : 0;
  }
};

TEST_F(OwnBodies, AreTakenUpToTheRoutesOwnLength) {
  const auto answer = ask(upload(200'000));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
  EXPECT_EQ(answer->body, "200000");
}

TEST_F(OwnBodies, AreScreenedBeforeTheyAreAskedFor) {
  EXPECT_EQ(first_status(upload_head(200'001, kExpect)), 413);
  EXPECT_EQ(first_status(upload_head(10, kExpect, kManagerToken, "application/json")), 415);
  EXPECT_EQ(first_status(upload_head(10, kExpect)), 100);
}

TEST_F(OwnBodies, LeaveTheOtherRoutesAsTheyAre) {
  const std::string json = "Content-Type: application/json\r\n";
  EXPECT_EQ(first_status(head("POST /api/v1/echo", json + kExpect + "Content-Length: 65537\r\n")),
            413);
  EXPECT_EQ(
      first_status(head("POST /api/v1/echo", "Content-Type: image/png\r\nContent-Length: 2\r\n") +
                   "{}"),
      415);
}

TEST_F(OwnBodies, AreNotAskedForFromWhoMayNotSendThem) {
  EXPECT_EQ(first_status(upload_head(10, kExpect, "inspector-token")), 403);
  EXPECT_EQ(first_status(upload_head(10, kExpect, "none-such")), 401);
  EXPECT_EQ(first_status(upload_head(10, kExpect)), 100) << "and these took no place";
}

TEST_F(OwnBodies, AreTakenInNoMoreThanThereArePlaces) {
  RawClient slow(port());
  ASSERT_TRUE(slow.send(upload_head(10, kExpect)));
  const auto asked = slow.read_answer();
  ASSERT_TRUE(asked);
  ASSERT_EQ(asked->status, 100) << "it has the place";
  const auto other = ask(upload(10));
  ASSERT_TRUE(other);
  EXPECT_EQ(other->status, 503);
  EXPECT_EQ(other->header("retry-after"), "5");
  ASSERT_TRUE(slow.send("0123456789"));
  const auto answer = slow.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
}

TEST_F(OwnBodies, AClientThatLeavesGivesItsPlaceBack) {
  {
    RawClient gone(port());
    ASSERT_TRUE(gone.send(upload_head(10) + "01234"));
    std::this_thread::sleep_for(milliseconds(50));
  }
  const auto began = std::chrono::steady_clock::now();
  std::optional<RawAnswer> answer;
  do {
    answer = ask(upload(10));
  } while (answer && answer->status == 503 &&
           std::chrono::steady_clock::now() - began < milliseconds(700));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
}

TEST_F(OwnBodies, HaveTheRoutesOwnTime) {
  const auto began = std::chrono::steady_clock::now();
  RawClient client(port());
  ASSERT_TRUE(client.send(upload_head(10) + "01234"));
  std::this_thread::sleep_for(short_settings().guard.body + milliseconds(100));
  const auto answer = client.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 408);
  EXPECT_GE(std::chrono::steady_clock::now() - began, milliseconds(800));
}

}  // namespace
}  // namespace benchwarden::http
