#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/data_file.h"
#include "base/toml.h"
#include "findings/finding.h"
#include "workshop/site_units.h"

namespace benchwarden::workshop {

/// The sentences of reports/wording/findings.toml, by what a finding or a due item says.
class FindingWording {
 public:
  /// Faults: an empty sentence, a brace without its other half.
  static base::Result<FindingWording, base::FileFaults> load(const base::DataFile& file);

  /// "Oil drum W1: its oldest content came in on 2025-11-30 …". `name` stands for {name}, each
  /// value for its own name, as the workshop reads amounts; what comes with no value stays as it is
  /// in the sentence. The key itself where there is no sentence for it.
  [[nodiscard]] std::string sentence(std::string_view says, std::string_view name,
                                     const findings::Values& values, const ShownIn& shown_in) const;
  /// One value as a sentence has it, in the unit it comes in.
  [[nodiscard]] std::string shown(const findings::Shown& value, const ShownIn& shown_in) const;
  [[nodiscard]] bool has(std::string_view says) const { return sentences_.contains(says); }

 private:
  FindingWording() = default;
  std::map<std::string, std::string, std::less<>> sentences_;
  std::map<std::string, std::string, std::less<>> units_;  ///< of spans: "d" -> "days"
};

}  // namespace benchwarden::workshop
