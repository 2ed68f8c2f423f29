#pragma once

#include "daemon/log.h"
#include "workshop/ports.h"

namespace benchwarden::daemon {

/// Signs the head of the book once a day, where it has grown.
class DailySeal {
 public:
  DailySeal(const workshop::Ports& ports, Log& log) : ports_(ports), log_(log) {}

  /// To be called now and then.
  void look_after();

 private:
  const workshop::Ports& ports_;
  Log& log_;
};

}  // namespace benchwarden::daemon
