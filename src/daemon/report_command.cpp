#include <fstream>
#include <iostream>

#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "workshop/report.h"

namespace benchwarden::daemon {

Exit report(const Options& options, const ReportOptions& wanted) {
  const auto request = workshop::read_report_request(wanted.words);
  if (!request) {
    fail(request.error());
    return Exit::kUsage;
  }
  const auto workshop = OpenWorkshop::open(options, OpenWorkshop::IfMissing::kRefuse,
                                           std::make_unique<SystemClock>());
  if (!workshop) return workshop.error();
  const auto made = workshop::make_report((*workshop)->ports(), *request);
  if (!made) return fail(made.error());
  if (wanted.output.empty()) {
    std::cout << made->bytes << std::flush;
    return std::cout ? Exit::kDone : Exit::kUnavailable;
  }
  std::ofstream file(wanted.output, std::ios::binary);
  file << made->bytes;
  if (!file.flush()) {
    return fail({base::ErrorCode::kUnavailable, wanted.output.string() + " cannot be written"});
  }
  return Exit::kDone;
}

}  // namespace benchwarden::daemon
