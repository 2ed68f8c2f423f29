#include "workshop/attachments.h"

#include <algorithm>
#include <utility>

#include "workshop/media_type.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kOther = "application/octet-stream";

/// There are few of them, a dozen or so a year for each report.
base::Result<bool> is_issued_report(const book::Book& book, const std::string& digest) {
  book::Selection reports;
  reports.kind = "report-issued";
  reports.limit = INT64_MAX;
  const auto issued = book.select(reports);
  if (!issued) return issued.error();
  return std::any_of(issued->begin(), issued->end(), [&](const entries::Entry& entry) {
    const std::vector<std::string>& own = entry.content.attachments;
    return std::find(own.begin(), own.end(), digest) != own.end();
  });
}

std::string ending_of(std::string_view media_type) {
  return media_type == kOther ? "bin" : std::string(media_type.substr(media_type.find('/') + 1));
}

std::string_view type_or_other(std::string_view beginning) {
  const std::string_view type = media_type_at(beginning);
  return type.empty() ? kOther : type;
}

}  // namespace

base::Result<TakenIn> take_in(const Ports& ports, const std::string& bytes) {
  const auto media_type = recognise(bytes);
  if (!media_type) return media_type.error();
  const auto staged = ports.book.stage_attachment(bytes);
  if (!staged) return staged.error();
  return TakenIn{base::sha256(bytes), *media_type, bytes.size(), *staged};
}

base::Result<AttachedFile> attached_file(const Ports& ports, const base::Sha256Digest& digest) {
  const std::string name = base::to_hex(digest);
  const auto issued = is_issued_report(ports.book, name);
  if (!issued) return issued.error();
  if (*issued) {
    return base::Error{base::ErrorCode::kNotFound,
                       "this is an issued report: see /api/v1/reports/issued"};
  }
  auto bytes = ports.book.attachment(digest);
  if (!bytes) return bytes.error();
  const std::string_view type = type_or_other(*bytes);
  constexpr std::size_t kNameLength = 16;
  return AttachedFile{*std::move(bytes), type, name.substr(0, kNameLength) + "." + ending_of(type)};
}

base::Result<base::Json> attached_json(const Ports& ports, const entries::Entry& entry) {
  base::JsonArray files;
  for (const std::string& name : entry.content.attachments) {
    const auto digest = base::digest_from_hex(name);
    if (!digest) continue;
    const auto look = ports.book.look_at_attachment(*digest);
    if (!look && look.error().code == base::ErrorCode::kNotFound) continue;
    if (!look) return look.error();
    files.push_back(base::JsonObject{
        {"digest", name}, {"media_type", type_or_other(look->beginning)}, {"bytes", look->bytes}});
  }
  return base::Json(std::move(files));
}

}  // namespace benchwarden::workshop
