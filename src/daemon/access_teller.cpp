#include "daemon/access_teller.h"

#include "http/access_telling.h"
#include "workshop/views.h"

namespace benchwarden::daemon {

bool AccessTeller::is_done(const base::Status<>& done, const std::string& else_what) {
  if (!done) log_.write_once(Severity::kError, "not-told", else_what + ": " + done.error().detail);
  return done.ok();
}

void AccessTeller::look_after() {
  // Asked before the writing: what is refused meanwhile belongs to no day that is told now.
  const base::CivilDate today = workshop::today(ports_);
  bool all = is_done(refused_.write_to(access_), "refused requests are not written down");
  all &=
      is_done(http::tell_access_changes(access_, ports_), "the book is not told who may come in");
  all &=
      is_done(http::tell_access_days(access_, ports_, today), "the book is not told of sign-ins");
  if (all) log_.settled("not-told");
}

}  // namespace benchwarden::daemon
