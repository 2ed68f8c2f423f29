#include "http/problem.h"

#include <gtest/gtest.h>

#include "base/json.h"

namespace benchwarden::http {
namespace {

base::Json read(const Response& response) {
  const auto json = base::parse_json(body_bytes(response));
  EXPECT_TRUE(json.ok());
  return json.ok() ? *json : base::Json();
}

TEST(Problem, SaysTypeTitleStatusAndDetail) {
  const Response response = problem(ProblemType::kNotFound, "There is no container w9.");
  EXPECT_EQ(response.status, 404);
  EXPECT_EQ(response.content_type, "application/problem+json");
  const base::Json json = read(response);
  ASSERT_NE(json.find("type"), nullptr);
  EXPECT_EQ(*json.find("type"), base::Json("/problems/not-found"));
  EXPECT_EQ(*json.find("status"), base::Json(404));
  EXPECT_EQ(*json.find("detail"), base::Json("There is no container w9."));
  EXPECT_NE(json.find("title"), nullptr);
  EXPECT_EQ(json.find("errors"), nullptr);
}

TEST(Problem, ListsEveryFault) {
  const base::Json json = read(problem(ProblemType::kRefused, "Two faults.",
                                       {{"/fields/volume_ml", "impossible", "Too much."},
                                        {"/fields/note", "unknown_field", "Not \"known\"."}}));
  ASSERT_NE(json.find("errors"), nullptr);
  const base::JsonArray* errors = json.find("errors")->array();
  ASSERT_NE(errors, nullptr);
  ASSERT_EQ(errors->size(), 2U);
  EXPECT_EQ(*errors->at(0).find("pointer"), base::Json("/fields/volume_ml"));
  EXPECT_EQ(*errors->at(0).find("code"), base::Json("impossible"));
  EXPECT_EQ(*errors->at(1).find("detail"), base::Json("Not \"known\"."));
}

TEST(Problem, HasOneStatusAndOneNameForEachType) {
  const std::vector<std::pair<int, std::string>> wanted = {
      {400, "malformed"},         {401, "unauthenticated"},
      {403, "forbidden"},         {403, "confirmation-needed"},
      {403, "passphrase-needed"}, {403, "no-access-now"},
      {404, "not-found"},         {405, "method-not-allowed"},
      {408, "timed-out"},         {409, "id-conflict"},
      {409, "already-set-up"},    {411, "length-required"},
      {413, "too-large"},         {415, "unsupported-media-type"},
      {421, "misdirected"},       {422, "refused"},
      {429, "locked-out"},        {429, "one-at-a-time"},
      {429, "too-many-requests"}, {500, "internal"},
      {501, "transfer-encoding"}, {503, "unavailable"}};
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const Response response = problem(static_cast<ProblemType>(i), "x");
    EXPECT_EQ(response.status, wanted[i].first);
    EXPECT_EQ(*read(response).find("type"), base::Json("/problems/" + wanted[i].second));
  }
}

TEST(Problem, NamesTheSchemeToSignInWith) {
  const Response response = problem(ProblemType::kUnauthenticated, "Sign in first.");
  EXPECT_EQ(response.headers, (HeaderFields{{"WWW-Authenticate", "Bearer"}}));
}

}  // namespace
}  // namespace benchwarden::http
