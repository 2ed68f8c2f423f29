#pragma once

#include <filesystem>
#include <string>
#include <utility>

#include "base/civil_date.h"
#include "daemon/log.h"
#include "workshop/ports.h"

namespace benchwarden::daemon {

/// Writes the month report of every month that is over into a folder, once:
/// "waste-month-2026-10.pdf". What is there stays as it is, whoever wrote it.
class MonthFiles {
 public:
  /// `folder` empty: writes nothing.
  MonthFiles(std::filesystem::path folder, std::string paper, const workshop::Ports& ports,
             Log& log)
      : folder_(std::move(folder)), paper_(std::move(paper)), ports_(ports), log_(log) {}

  /// To be called now and then: writes at most one, so that nobody waits long for their turn.
  void look_after();

 private:
  void write(base::CivilMonth month, const std::filesystem::path& file);
  void tell_once(const std::string& fault);

  const std::filesystem::path folder_;
  const std::string paper_;
  const workshop::Ports& ports_;
  Log& log_;
};

}  // namespace benchwarden::daemon
