#pragma once

#include <map>
#include <string>
#include <utility>

#include "base/data_file.h"
#include "base/toml.h"
#include "entries/refusal.h"

namespace benchwarden::forms {

/// The sentences of forms/wording/refusals.toml, one for each refusal code.
class Wording {
 public:
  /// Faults: a code without a sentence, a sentence without a code, an empty one, a placeholder
  /// other than {field}, {value} and {accepted}.
  static base::Result<Wording, base::FileFaults> load(const base::DataFiles& files);

  /// "volume_ml: 25000 was given; possible: 0.001 … 20000 mL." The field is the pointer without
  /// its leading "/fields/" or "/".
  [[nodiscard]] std::string sentence(const entries::Refusal& refusal) const;

 private:
  Wording() = default;
  std::map<entries::RefusalCode, std::string> sentences_;
};

}  // namespace benchwarden::forms
