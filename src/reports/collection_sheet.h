#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "reports/carrier_facts.h"
#include "reports/waste_month.h"

namespace benchwarden::reports {

struct CollectionSheetInput {
  const tallies::State& state;
  std::string collection;
  Basis basis;
  std::vector<RecordedEntry> entries;  ///< about the collection, with all their corrections
  Names names;
  FormTexts forms;
};

/// How far a collection has come. A draft stands on the plan alone.
enum class SheetState { kDraft, kTaken, kNothingTaken };

/// One entry about the collection.
struct SheetStage {
  EntryFigures entry;
  std::string stage;  ///< a code of the form
  entries::Fields told;
  bool struck = false;
  std::vector<CorrectionFigures> corrections;
};

/// An entry that suspects what went into a container to be contaminated, or a test of it.
struct SheetTold {
  std::uint64_t seq = 0;
  base::Timestamp at;
  std::string kind;
  entries::Fields fields;
};

/// One container of the plan, or one that was taken. Amounts as in StreamFigures.
struct SheetLoad {
  std::string container;
  std::string name;
  tallies::StreamFacts stream;
  std::string national_code;
  entries::Fields hazards;                   ///< of the stream, as the register has them
  std::vector<std::string> hazards_missing;  ///< fields that were not entered
  std::optional<std::int64_t> amount;        ///< none: the plan names none in the stream's unit
  std::optional<std::int64_t> mass;
  std::optional<std::int64_t> stated_mass;
  std::optional<std::int64_t> weighed_mass;
  std::optional<bool> emptied;  ///< nothing left in it, as the entry of the taking says
  std::optional<base::Timestamp> accumulation_start;
  std::uint64_t seq = 0;              ///< of the entry
  std::vector<SheetTold> suspicions;  ///< since it was last emptied
  std::vector<SheetTold> tests;       ///< of it since then, and the last of its stream before
};

struct CollectionSheetFigures {
  Frame frame;
  std::string collection;
  bool known = false;  ///< something stands about it
  SheetState state = SheetState::kDraft;
  std::string emergency_phone;
  CarrierFacts carrier;                ///< the id is "" where none is named
  std::vector<std::string> documents;  ///< numbers, in order of time, each once
  std::optional<base::CivilDate> planned_for;
  std::vector<SheetLoad> loads;
  std::optional<std::int64_t> total_volume;  ///< of what is counted by volume; none without any
  std::optional<std::int64_t> total_mass;    ///< none where one has no mass
  std::vector<std::pair<std::string, std::string>> left_behind;  ///< planned, not taken: id, name
  std::vector<SheetStage> stages;                                ///< in order of the book
};

/// Pure: equal input gives equal figures.
CollectionSheetFigures make_collection_sheet(const CollectionSheetInput& input);

base::Json collection_sheet_json(const CollectionSheetFigures& figures);

}  // namespace benchwarden::reports
