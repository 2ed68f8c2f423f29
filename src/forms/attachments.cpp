#include "forms/attachments.h"

#include <algorithm>

#include "base/text.h"

namespace benchwarden::forms {
namespace {

using entries::RefusalCode;

/// "kind = collection, cylinder-check"
std::string kinds_that_take_them(const Catalog& catalog) {
  std::vector<std::string> kinds;
  for (const Definition& definition : catalog.definitions()) {
    if (definition.attachments) kinds.push_back(definition.kind);
  }
  return "kind = " + base::join(kinds, ", ");
}

}  // namespace

void check_attachments(const std::vector<std::string>& attachments, const Catalog& catalog,
                       const Definition& form, const Surroundings& surroundings,
                       entries::Refusals& refusals) {
  if (attachments.empty()) return;
  const std::string count = std::to_string(attachments.size());
  if (!form.attachments) {
    refusals.push_back(
        {"/attachments", RefusalCode::kFieldNotApplicable, count, kinds_that_take_them(catalog)});
    return;
  }
  if (attachments.size() > form.attachments->max) {
    refusals.push_back({"/attachments", RefusalCode::kTooManyRows, count,
                        "0 … " + std::to_string(form.attachments->max)});
    return;
  }
  for (auto digest = attachments.begin(); digest != attachments.end(); ++digest) {
    const std::string pointer = "/attachments/" + std::to_string(digest - attachments.begin());
    if (std::find(attachments.begin(), digest, *digest) != digest) {
      refusals.push_back({pointer, RefusalCode::kNamedTwice, *digest, ""});
    } else if (!surroundings.knows_attachment(*digest)) {
      refusals.push_back(
          {pointer, RefusalCode::kUnknownAttachment, *digest, "POST /api/v1/attachments"});
    }
  }
}

}  // namespace benchwarden::forms
