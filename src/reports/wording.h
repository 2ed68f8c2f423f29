#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/civil_date.h"
#include "base/data_file.h"
#include "base/toml.h"
#include "reports/wording_keys.h"

namespace benchwarden::reports {

/// Every sentence and heading of the reports, from reports/wording/en.toml.
class ReportWording {
 public:
  using Values = std::vector<std::pair<std::string_view, std::string>>;

  /// Faults for a sentence that is missing, unknown or empty, and for one whose {placeholders} are
  /// not exactly those the code fills in.
  static base::Result<ReportWording, base::FileFaults> load(const base::DataFiles& files);

  [[nodiscard]] const std::string& text(Key key) const;
  [[nodiscard]] std::string text(Key key, const Values& values) const;
  /// Heading of a section of a report; empty where it prints none.
  [[nodiscard]] const std::string& section(std::string_view report, std::string_view id) const;
  [[nodiscard]] const std::string& column(std::string_view name) const;
  [[nodiscard]] std::string month(base::CivilMonth month) const;  ///< "October 2026"
  [[nodiscard]] const std::string& yes_no(bool value) const;

 private:
  ReportWording() = default;
  [[nodiscard]] const std::string& at(const std::string& name) const;
  std::map<std::string, std::string, std::less<>> texts_;
};

}  // namespace benchwarden::reports
