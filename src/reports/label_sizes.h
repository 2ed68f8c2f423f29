#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"
#include "document/label.h"

namespace benchwarden::reports {

/// reports/layout/label_sizes.toml: what a label has to be at least, by what a container holds.
class LabelSizes {
 public:
  /// Faults for sizes out of order or of no use, and where the last one has an upper end.
  static base::Result<LabelSizes, base::FileFaults> load(const base::DataFiles& files);

  /// Of a container that holds so many millilitres.
  [[nodiscard]] const document::LabelSize& of(std::int64_t millilitres) const;

 private:
  struct Step {
    std::optional<std::int64_t> up_to_ml;  ///< none: whatever is more
    document::LabelSize size;
  };
  static Step read_step(const base::Toml& table, const std::string& file, base::FileFaults& faults);
  static void check_order(const std::vector<Step>& steps, base::TomlReader& reader);

  LabelSizes() = default;
  std::vector<Step> steps_;  ///< at least one
};

}  // namespace benchwarden::reports
