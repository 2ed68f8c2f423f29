#pragma once

#include <optional>
#include <string>
#include <vector>

namespace benchwarden::document {

struct LabelFact {
  std::string label;
  std::string value;
};

/// What is stuck on a thing under care: every text as it is to be read on it, the most important
/// first. How large it is, its paper says.
struct Label {
  std::string words;                    ///< first and largest: what a pack requires
  std::string name;                     ///< then what it is, or what is in it
  std::vector<LabelFact> facts;         ///< code, accumulation start, capacity, due date …
  std::vector<std::string> pictograms;  ///< of GHS: "ghs02"
  std::string pictograms_source;        ///< where the manager has them from
  std::vector<std::string> warnings;    ///< what not to mix, the usual caution
  std::string id;                       ///< of the thing, large enough to be typed in
  std::string code;                     ///< what the QR code holds
  std::vector<std::string> foot;        ///< site, emergency telephone
  std::optional<int> pictogram_mm_min;  ///< side of each, by CLP Annex I Table 1.3
};

}  // namespace benchwarden::document
