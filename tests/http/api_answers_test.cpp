#include "http/api_answers.h"

#include <gtest/gtest.h>

namespace benchwarden::http {
namespace {

TEST(ApiAnswers, GiveEachErrorItsStatus) {
  const std::vector<std::pair<base::ErrorCode, int>> wanted = {
      {base::ErrorCode::kInvalid, 422},  {base::ErrorCode::kNotFound, 404},
      {base::ErrorCode::kConflict, 409}, {base::ErrorCode::kUnavailable, 503},
      {base::ErrorCode::kDamaged, 500},  {base::ErrorCode::kForbidden, 403},
      {base::ErrorCode::kInternal, 500}};
  for (const auto& [code, status] : wanted) {
    EXPECT_EQ(error_answer({code, "x"}).status, status);
  }
}

TEST(ApiAnswers, BlameNoSenderForAFaultOfOurOwn) {
  const auto json = base::parse_json(
      body_bytes(error_answer({base::ErrorCode::kInternal, "the table is too wide"})));
  ASSERT_TRUE(json.ok());
  EXPECT_EQ(*json->find("type"), base::Json("/problems/internal"));
  EXPECT_EQ(*json->find("detail"), base::Json("the table is too wide"));
  EXPECT_EQ(json->find("errors"), nullptr);
}

}  // namespace
}  // namespace benchwarden::http
