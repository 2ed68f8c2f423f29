#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/civil_date.h"
#include "base/json.h"
#include "document/document.h"
#include "findings/finding.h"
#include "reports/frame.h"
#include "tallies/levels.h"

namespace benchwarden::reports {

/// Words that a rule in force asks to be written on a container.
struct AskedWords {
  std::string words;
  findings::Authority authority;
};

/// What is due next of a thing, by which rule.
struct NextDue {
  base::CivilDate day;
  std::string sentence;  ///< whole in itself, its day in it
  std::string source;    ///< who asks for it, and how well that is known
  findings::Authority authority;
};

/// One thing under care that gets a label.
struct LabelThing {
  findings::Subject subject;
  std::string name;
  bool retired = false;
  std::optional<base::CivilDate> retired_on;
  bool in_service = true;
  entries::Fields attributes;
  // of a container
  std::vector<AskedWords> words;                      ///< the most important first
  entries::Fields stream;                             ///< attributes of its stream
  tallies::StreamFacts facts;                         ///< the same, with what holds by default
  std::optional<base::CivilDate> accumulation_start;  ///< day of its oldest content
  bool tells_start = true;                            ///< whether its label has that day at all
  // of all others
  std::optional<NextDue> due;
};

struct LabelFigures {
  Frame frame;
  std::string emergency_phone;
  base::CivilDate as_of_day;
  std::vector<LabelThing> things;  ///< at least one
};

/// The register's part of a label; words and due dates are for who knows the rules. `levels` are
/// those of all containers as of the basis. None where the thing is not in the register.
std::optional<LabelThing> label_thing(const tallies::State& state, const findings::Subject& subject,
                                      const Basis& basis,
                                      const std::vector<tallies::Level>& levels);
LabelFigures label_figures(const tallies::State& state, const Basis& basis, FormTexts forms,
                           std::vector<LabelThing> things);

/// The hazard pictograms of a stream as entered: codes in their order. None where the register does
/// not say which data sheet they are from.
std::vector<std::string> sourced_pictograms(const entries::Fields& stream);

/// Whether a line is left to write the hazards on: of hazardous waste without pictograms.
bool writes_hazards_by_hand(const LabelThing& thing);

/// With what each label bears where it has room, and what of that has none on the paper asked for.
base::Json label_json(const LabelFigures& figures, const document::Document& document);

}  // namespace benchwarden::reports
