#include "workshop/attachments.h"

#include <algorithm>
#include <utility>

#include "workshop/media_type.h"
#include "workshop/report.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kOther = "application/octet-stream";

using EntryTest = std::function<base::Result<bool>(const entries::Entry&)>;

/// Whether an entry of that kind names the file, and is one that is wanted.
base::Result<bool> is_named_by(const book::Book& book, const std::string& kind,
                               const std::string& digest, const EntryTest& wanted) {
  book::Selection some;
  some.kind = kind;
  some.limit = 500;
  while (true) {
    const auto read = book.select(some);
    if (!read) return read.error();
    for (const entries::Entry& entry : *read) {
      const std::vector<std::string>& own = entry.content.attachments;
      some.after_seq = entry.seq;
      if (std::find(own.begin(), own.end(), digest) == own.end()) continue;
      const auto is_wanted = wanted(entry);
      if (!is_wanted || *is_wanted) return is_wanted;
    }
    if (read->size() < some.limit) return false;
  }
}

base::Result<bool> whichever(const entries::Entry&) { return true; }

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
  const auto issued = is_named_by(ports.book, std::string(kIssuedKind), name, whichever);
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

base::Result<bool> is_named(const Ports& ports, const base::Sha256Digest& digest,
                            const std::function<bool(std::string_view)>& shown) {
  const std::string name = base::to_hex(digest);
  for (const forms::Definition& form : ports.definitions.catalog.definitions()) {
    if (!form.attachments || !shown(form.kind)) continue;
    const auto named = is_named_by(ports.book, form.kind, name, whichever);
    if (!named || *named) return named;
  }
  const auto corrects_shown = [&](const entries::Entry& entry) -> base::Result<bool> {
    const auto corrected = ports.book.entry(*entry.content.corrects);
    if (!corrected) return corrected.error();
    return shown(corrected->content.kind);
  };
  return is_named_by(ports.book, std::string(forms::kCorrectionKind), name, corrects_shown);
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
