#include "daemon/access_teller.h"

#include "http/access_telling.h"
#include "workshop/views.h"

namespace benchwarden::daemon {

void AccessTeller::say_if_failed(const base::Status<>& done, const std::string& what) {
  if (!done) log_.write(Severity::kError, "not-told", what + ": " + done.error().detail);
}

void AccessTeller::look_after() {
  // Asked before the writing: what is refused meanwhile belongs to no day that is told now.
  const base::CivilDate today = workshop::today(ports_);
  say_if_failed(refused_.write_to(access_), "refused requests are not written down");
  say_if_failed(http::tell_access_changes(access_, ports_), "the book is not told who may come in");
  say_if_failed(http::tell_access_days(access_, ports_, today), "the book is not told of sign-ins");
}

}  // namespace benchwarden::daemon
