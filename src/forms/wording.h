#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"
#include "entries/refusal.h"
#include "forms/definition.h"

namespace benchwarden::forms {

/// The sentences of forms/wording/refusals.toml, one for each refusal code and for each reason to
/// ask for confirmation, and the labels of what is no field of a form.
class Wording {
 public:
  /// Faults: a code, reason or member without its words, words without any, empty ones, a
  /// placeholder that is not filled there.
  static base::Result<Wording, base::FileFaults> load(const base::DataFiles& files);

  /// "Volume: 25 000 mL cannot be right. Accepted: 0.001 … 20 000 mL." Fields stand by the label
  /// they have in the first of `forms` that knows them, columns as "Row 2, Volume"; what nobody
  /// knows stands as it was sent.
  [[nodiscard]] std::string sentence(const entries::Refusal& refusal,
                                     const std::vector<const Definition*>& forms) const;

 private:
  Wording() = default;
  void read_sentences(const base::Toml& table, base::TomlReader& reader, base::FileFaults& faults);
  void read_reasons(base::TomlReader& reader, base::FileFaults& faults);
  void read_labels(base::TomlReader& reader, base::FileFaults& faults);
  [[nodiscard]] std::string label(std::string_view pointer,
                                  const std::vector<const Definition*>& forms) const;
  [[nodiscard]] std::string label_of_field(std::string_view path,
                                           const std::vector<const Definition*>& forms) const;
  [[nodiscard]] std::string row_label(std::string_view index, const std::string& field) const;

  std::map<entries::RefusalCode, std::string> sentences_;
  std::map<entries::Unusual, std::string> reasons_;
  std::map<std::string, std::string, std::less<>> labels_;
};

}  // namespace benchwarden::forms
