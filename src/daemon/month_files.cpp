#include "daemon/month_files.h"

#include <iostream>
#include <system_error>

#include "access/private_file.h"
#include "workshop/month_views.h"
#include "workshop/report.h"

namespace benchwarden::daemon {

void MonthFiles::look_after() {
  if (folder_.empty()) return;
  for (const base::CivilMonth month : workshop::months_over(ports_)) {
    const auto file = folder_ / ("waste-month-" + base::format_month(month) + ".pdf");
    std::error_code failure;
    if (std::filesystem::exists(file, failure)) continue;
    if (failure) return tell_once(file.string() + ": " + failure.message());
    return write(month, file);
  }
}

void MonthFiles::write(base::CivilMonth month, const std::filesystem::path& file) {
  const auto request = workshop::read_report_request({.name = "waste-month",
                                                      .format = "pdf",
                                                      .paper = paper_,
                                                      .month = base::format_month(month)});
  if (!request) return tell_once(request.error().detail);
  const auto made = workshop::make_report(ports_, *request);
  if (!made) {
    // Others are being made: this one comes when it is looked after next.
    if (made.error().code == base::ErrorCode::kUnavailable) return;
    return tell_once(file.string() + ": " + made.error().detail);
  }
  const auto written = access::write_private_file(file, made->bytes);
  if (!written) return tell_once(written.error().detail);
  std::cout << "wrote " + file.string() + "\n" << std::flush;
  log_.settled("no-month-report");
}

void MonthFiles::tell_once(const std::string& fault) {
  log_.write_once(Severity::kError, "no-month-report", fault);
}

}  // namespace benchwarden::daemon
