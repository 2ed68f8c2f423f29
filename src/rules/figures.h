#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"

namespace benchwarden::rules {

/// One figure that a rule or a calculation rests on: never in code, always with its citation.
struct Figure {
  std::string id;
  std::string value;  ///< a decimal, as it stands in the source
  std::string unit;
  std::string citation;
};

/// The figures of reports/rules/figures, which calculations rest on.
class Figures {
 public:
  /// Faults for a figure without value or citation, and two of one id.
  static base::Result<Figures, base::FileFaults> load(const base::DataFiles& files);
  [[nodiscard]] const Figure* find(std::string_view id) const;
  [[nodiscard]] const std::vector<Figure>& all() const { return all_; }

 private:
  Figures() = default;
  std::vector<Figure> all_;
};

}  // namespace benchwarden::rules
