#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace benchwarden::document {

/// Without a value there is an empty line to write it on by hand.
struct LabelFact {
  std::string label;
  std::string value;
  std::string name = {};     ///< for machines; the label when empty
  std::string raw = {};      ///< for machines; the value when empty
  std::string by_hand = {};  ///< what is said to who cannot see the empty line
  enum class Weight { kNormal, kLarge } weight = Weight::kNormal;
};

struct LabelPictogram {
  std::string symbol;  ///< of pictograms.h
  std::string name;    ///< in words
};

/// What a label has to be at least, by what it is stuck on.
struct LabelSize {
  int width_mm = 0;  ///< the shorter side of the paper, the longer one is the height
  int height_mm = 0;
  std::int64_t pictogram_um = 0;  ///< side of each
  std::int64_t x_height_um = 0;   ///< of every text
  std::string source;             ///< who asks for it
};

/// What is stuck on a thing under care: every text as it is to be read on it, the most important
/// first. How large it is, its paper says.
struct Label {
  std::string title;                       ///< what it is stuck on: for lists, faults and ears
  std::string words;                       ///< first and largest: what a pack requires
  std::string name;                        ///< then what it is, or what is in it
  std::vector<LabelFact> facts;            ///< code, accumulation start, capacity, due date …
  std::vector<LabelPictogram> pictograms;  ///< at most nine
  std::string pictograms_source;           ///< where the manager has them from
  std::vector<std::string> warnings;       ///< what not to mix, the usual caution
  std::vector<std::string> remarks;        ///< less than a warning: from when it is, where to look
  std::vector<std::string> if_room;        ///< each left out where there is no room for it
  std::vector<std::string> left_out = {};  ///< of them: what has none on the paper asked for
  std::string left_out_says = {};          ///< what is said before those
  std::string id;                          ///< of the thing, large enough to be typed in
  std::string code;                        ///< what the QR code holds
  std::vector<std::string> foot;           ///< site, emergency telephone
  std::optional<LabelSize> least = {};     ///< where anything is asked for
};

}  // namespace benchwarden::document
