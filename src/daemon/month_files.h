#pragma once

#include <filesystem>
#include <set>
#include <string>
#include <utility>

#include "base/civil_date.h"
#include "workshop/ports.h"

namespace benchwarden::daemon {

/// Writes the month report of every month that is over into a folder, once:
/// "waste-month-2026-10.pdf". What is there stays as it is, whoever wrote it.
class MonthFiles {
 public:
  /// `folder` empty: writes nothing.
  MonthFiles(std::filesystem::path folder, std::string paper, const workshop::Ports& ports)
      : folder_(std::move(folder)), paper_(std::move(paper)), ports_(ports) {}

  /// To be called now and then: writes at most one, so that nobody waits long for their turn.
  void look_after();

 private:
  void write(base::CivilMonth month, const std::filesystem::path& file);
  void tell_once(const std::string& fault);

  const std::filesystem::path folder_;
  const std::string paper_;
  const workshop::Ports& ports_;
  std::set<std::string> told_;  ///< faults, so that they do not fill the log
};

}  // namespace benchwarden::daemon
