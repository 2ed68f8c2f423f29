#include "forms/claim.h"

#include "forms/shown.h"

namespace benchwarden::forms {
namespace {

const base::Json* member(const base::Json& submission, std::string_view name) {
  const base::Json* json = submission.find(name);
  return json == nullptr || json->is_null() ? nullptr : json;
}

}  // namespace

Claim read_claim(const base::Json& submission, entries::Refusals& refusals) {
  Claim claim;
  if (const base::Json* person = member(submission, "person")) {
    if (const std::string* id = person->string()) {
      claim.person = *id;
    } else {
      refusals.push_back(
          {"/person", entries::RefusalCode::kWrongType, shown_value(*person), "\"…\""});
    }
  }
  if (const base::Json* claimed = member(submission, "claimed")) {
    if (const auto said = claimed->boolean()) {
      claim.claimed = *said;
    } else {
      refusals.push_back(
          {"/claimed", entries::RefusalCode::kWrongType, shown_value(*claimed), "true, false"});
    }
  }
  return claim;
}

}  // namespace benchwarden::forms
