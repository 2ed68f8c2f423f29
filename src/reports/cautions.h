#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"
#include "document/blocks.h"

namespace benchwarden::reports {

/// One caution of reports/cautions: the words, what brings them up, and where they come from.
struct Caution {
  std::string id;
  std::string title;
  std::vector<std::string> sentences;
  std::vector<std::string> kinds;    ///< kinds of entry whose form shows it
  std::vector<std::string> screens;  ///< screens of the app that show it
  std::vector<std::string> reports;  ///< reports that print it
  /// What a label of it prints it on: a class of thing, or one with what it holds by the register,
  /// as "cylinder/argon" or "container/used-oil"; "/unknown" for what no caution names, "/acute".
  std::vector<std::string> labels;
  std::vector<std::string> sources;  ///< citations, or the words that there is none
};

class Cautions {
 public:
  /// Faults for a caution without title, sentence, condition or source, one whose file is not
  /// named after it, and two of one id.
  static base::Result<Cautions, base::FileFaults> load(const base::DataFiles& files);

  [[nodiscard]] const std::vector<Caution>& all() const { return all_; }  ///< in order of id
  [[nodiscard]] const Caution* find(std::string_view id) const;
  [[nodiscard]] std::vector<const Caution*> for_kind(std::string_view kind) const;
  /// For the label of a thing that holds that, "" where the register does not say what.
  [[nodiscard]] std::vector<const Caution*> for_label(std::string_view thing_class,
                                                      std::string_view content) const;
  [[nodiscard]] std::vector<const Caution*> for_screen(std::string_view screen) const;

 private:
  Cautions() = default;
  std::vector<Caution> all_;
};

document::CautionBox caution_box(const Caution& caution);

}  // namespace benchwarden::reports
