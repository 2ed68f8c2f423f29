#pragma once

#include <set>
#include <string>

#include "workshop/ports.h"

namespace benchwarden::daemon {

/// Signs the head of the book once a day, where it has grown.
class DailySeal {
 public:
  explicit DailySeal(const workshop::Ports& ports) : ports_(ports) {}

  /// To be called now and then.
  void look_after();

 private:
  const workshop::Ports& ports_;
  std::set<std::string> told_;  ///< faults, so that they do not fill the log
};

}  // namespace benchwarden::daemon
