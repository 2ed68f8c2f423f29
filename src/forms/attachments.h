#pragma once

#include <string>
#include <vector>

#include "forms/catalog.h"
#include "forms/submission.h"

namespace benchwarden::forms {

/// Most attachments of any entry; a form may take fewer.
inline constexpr std::size_t kAttachmentsMax = 10;

/// Refuses attachments, given as digests in form, that the form of an entry does not take: any
/// where it takes none, more than it takes, one named twice, one that was not sent in.
void check_attachments(const std::vector<std::string>& attachments, const Catalog& catalog,
                       const Definition& form, const Surroundings& surroundings,
                       entries::Refusals& refusals);

}  // namespace benchwarden::forms
