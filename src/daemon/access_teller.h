#pragma once

#include <string>

#include "access/access.h"
#include "daemon/log.h"
#include "http/application.h"
#include "http/refused_requests.h"
#include "workshop/ports.h"

namespace benchwarden::daemon {

/// Writes down which requests were refused, and tells the book of changes to who may come in and of
/// the days that are over.
class AccessTeller {
 public:
  AccessTeller(access::Access& access, const workshop::Ports& ports, Log& log)
      : access_(access), ports_(ports), log_(log), refused_(ports.clock) {}

  /// For an application: what it refused is noted here, as long as this lives.
  http::NoteRefused noting() {
    return [this](const std::string& reason, const std::string& peer, const std::string& person) {
      refused_.note(reason, peer, person);
    };
  }
  /// To be called now and then, and at the end. What fails is said in the log and tried again.
  void look_after();

 private:
  bool is_done(const base::Status<>& done, const std::string& else_what);

  access::Access& access_;
  const workshop::Ports& ports_;
  Log& log_;
  http::RefusedRequests refused_;
};

}  // namespace benchwarden::daemon
