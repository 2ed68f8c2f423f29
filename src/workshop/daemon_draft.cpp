#include "workshop/daemon_draft.h"

namespace benchwarden::workshop {

book::Draft daemon_draft(std::string_view kind, const forms::Catalog& catalog, base::Instant now) {
  book::Draft draft;
  draft.content.id = base::new_uuid7(now);
  draft.content.kind = kind;
  draft.content.form_version = catalog.find(kind)->version;
  draft.content.occurred_at = {now, 0};
  draft.signature.person = "machine";
  return draft;
}

}  // namespace benchwarden::workshop
