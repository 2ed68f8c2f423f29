#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"
#include "reports/cautions.h"

namespace benchwarden::reports {

struct SectionDefinition {
  std::string id;
  std::vector<std::string> columns;  ///< in the order they are printed
  /// Fields of an entry in the order they are printed below a row; others follow by name.
  std::vector<std::string> field_order;
  /// Questions of a form that are not asked of a kind of thing, as "extinguisher/drained".
  std::vector<std::string> left_out;
};

/// One report of reports/definitions: which parts, in which order, with which columns.
struct ReportDefinition {
  std::string id;
  std::string title;
  std::vector<SectionDefinition> sections;
  std::vector<std::string> cautions;
};

class ReportDefinitions {
 public:
  /// Faults for an unknown report, section, column or caution; for a part of the report left out
  /// or named twice; and for a caution that does not name the report in turn.
  static base::Result<ReportDefinitions, base::FileFaults> load(const base::DataFiles& files,
                                                                const Cautions& cautions);
  /// Asserts that it is one of the reports the code can make; all of them are there once loaded.
  [[nodiscard]] const ReportDefinition& get(std::string_view id) const;
  /// nullptr where there is none of that name.
  [[nodiscard]] const ReportDefinition* find(std::string_view id) const;
  [[nodiscard]] const std::vector<ReportDefinition>& all() const { return all_; }

 private:
  ReportDefinitions() = default;
  std::vector<ReportDefinition> all_;
};

}  // namespace benchwarden::reports
