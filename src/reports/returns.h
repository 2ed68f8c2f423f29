#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"
#include "findings/finding.h"

namespace benchwarden::reports {

/// Which amount of each stream a return asks for; kCategory: what counted in each month toward the
/// category of a generator, by the rules; kNone: nothing, so that its sentence stands alone.
enum class ReturnFigure { kArisen, kCollected, kCategory, kNone };
enum class ReturnCode { kListOfWaste, kNational };
enum class ReturnPeriod { kYear, kQuarter };

/// One thing that returns under a rule pack ask for.
struct ReturnDefinition {
  std::string id;
  std::string title;
  std::string sentence;  ///< who asks whom for it, and what is left out
  std::string citation;
  findings::Confidence confidence = findings::Confidence::kFromMemory;
  ReturnFigure figure = ReturnFigure::kNone;
  ReturnCode code = ReturnCode::kListOfWaste;
  ReturnPeriod period = ReturnPeriod::kYear;
  std::string unit = "kg";  ///< of mass
  bool hazardous_only = true;
  std::vector<std::string> without_types;  ///< codes of the register's waste_type
};

/// What returns ask for, from reports/returns, a file for each rule pack that tells any.
class Returns {
 public:
  struct OfPack {
    std::string pack;
    std::vector<ReturnDefinition> returns;
  };
  /// Faults for an unknown word, a unit that is none of mass, two returns of one id, and a
  /// file that is not named after its pack.
  static base::Result<Returns, base::FileFaults> load(const base::DataFiles& files);
  /// nullptr where nothing is known of that pack.
  [[nodiscard]] const OfPack* find(std::string_view pack) const;

 private:
  Returns() = default;
  std::vector<OfPack> all_;
};

}  // namespace benchwarden::reports
