#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"

namespace benchwarden::forms {

/// The sentences of forms/wording/calculations.toml, one for each reason to refuse.
class CalculationWording {
 public:
  /// `keys`: the reasons there are. Faults: a reason without a sentence, a sentence without a
  /// reason, the file missing.
  static base::Result<CalculationWording, base::FileFaults> load(
      const base::DataFiles& files, const std::vector<std::string_view>& keys);
  [[nodiscard]] std::string sentence(std::string_view key, const std::string& input,
                                     const std::string& value, const std::string& accepted) const;
  /// The label of a quantity that is worked out on the way; its name where it has none.
  [[nodiscard]] std::string quantity(const std::string& name) const;

 private:
  CalculationWording() = default;
  std::map<std::string, std::string, std::less<>> quantities_;
  std::map<std::string, std::string, std::less<>> sentences_;
};

}  // namespace benchwarden::forms
