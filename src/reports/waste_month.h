#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/civil_date.h"
#include "reports/corrections.h"
#include "reports/frame.h"
#include "reports/input.h"
#include "reports/month_closing.h"
#include "reports/stream_figures.h"
#include "tallies/levels.h"
#include "tallies/state.h"
#include "tallies/timeline.h"

namespace benchwarden::reports {

/// What is to come, by the book as it stands.
struct Outlook {
  struct Planned {
    std::string collection;
    base::CivilDate day;
    std::uint64_t entry = 0;
  };
  std::optional<Planned> planned;  ///< the first collection that is still to come
  std::size_t over = 0;            ///< findings of the rules in force beyond a limit
  std::size_t due = 0;             ///< and those with something to be done
};

/// When a container comes to its working limit, by what came in until the end of the month.
struct FillingFigures {
  std::optional<base::CivilDate> earliest_80;
  std::optional<base::CivilDate> median;
  std::optional<base::CivilDate> latest_80;
};

struct WasteMonthInput {
  const tallies::State& state;
  base::CivilMonth month;
  Basis basis;
  /// At least those that occurred in the month and all of the register, with all their corrections;
  /// others and corrections themselves are passed over.
  std::vector<RecordedEntry> entries;
  Names names;
  FormTexts forms;
  std::optional<MonthClosing> closing = std::nullopt;  ///< the one that stands
  std::optional<Outlook> outlook = std::nullopt;
  std::map<std::string, FillingFigures> fillings = {};  ///< by container; without one no forecast
};

struct ReadingFigures {
  base::Timestamp at;
  std::uint64_t seq = 0;
  std::int64_t reading = 0;
  std::int64_t logged = 0;  ///< the unexplained difference is reading - logged
};

struct ContainerFigures {
  std::string id;
  std::string name;
  tallies::StreamFacts stream;
  bool counts_waste = true;  ///< false: a working bin
  bool retired = false;
  bool sealed = false;
  std::int64_t amount = 0;  ///< at the end
  std::optional<std::int64_t> mass;
  std::optional<std::int64_t> limit_permille;
  std::optional<base::Timestamp> oldest_content;
  tallies::Movement movement;
  std::optional<ReadingFigures> reading;  ///< the last of the month
};

struct CollectedFigures {
  base::Timestamp taken_at;
  std::uint64_t seq = 0;
  std::string collection;
  std::string document_number;  ///< of this entry, as the carrier is
  std::string carrier;
  std::string carrier_name;
  std::string container;
  std::string container_name;
  tallies::StreamFacts stream;
  std::int64_t amount = 0;  ///< as the log has it, corrections included
  std::optional<std::int64_t> mass;
  std::optional<std::int64_t> stated_mass;           ///< where the entry gave one beside the volume
  std::optional<std::int64_t> weighed_mass;          ///< of the container, once in a collection
  std::optional<base::Timestamp> document_returned;  ///< the one of this number
};

/// A document that went with loads of a collection in an earlier month and had not come back.
struct OpenDocument {
  std::string collection;
  std::string document_number;
  base::Timestamp taken_at;
};

/// One thing an entry did to the log of one container.
struct EffectFigures {
  EntryFigures entry;
  std::string container;
  std::string container_name;
  tallies::CountedBy counted_by = tallies::CountedBy::kVolume;
  tallies::EventKind effect = tallies::EventKind::kAdded;
  std::optional<std::int64_t> change;  ///< of the level, signed; none where it changes nothing
  bool late = false;
  bool struck = false;
  std::vector<std::uint64_t> corrected_by;
};

/// An entry that counts in an earlier month and was recorded or corrected in this one.
struct EarlierFigures {
  std::uint64_t seq = 0;
  std::uint64_t corrected_by = 0;  ///< 0: it was recorded, not corrected
  base::Timestamp occurred_at;
  base::Timestamp recorded_at;  ///< of the entry or of its correction
};

/// What a register entry or its correction, recorded after the month, altered of that on which the
/// month stands: zone and name of the site, code and density of a stream.
struct RegisterFigures {
  EntryFigures by;
  std::string thing_class;
  std::string thing;
  std::vector<std::string> fields;
};

/// An entry that suspects the waste to be contaminated.
struct ContaminatedFigures {
  EntryFigures entry;
  std::string contamination;  ///< the code of the form
  std::string container;
  std::string container_name;
  std::optional<std::int64_t> volume;  ///< µL, where the entry gives one
};

/// An entry that moved waste of one stream into a container of another.
struct BetweenStreamsFigures {
  EntryFigures entry;
  std::string from;
  std::string from_name;
  std::string from_stream;
  std::string to;
  std::string to_name;
  std::string to_stream;
};

/// A container whose log says at the end what cannot or should not be.
struct OddLevelFigures {
  std::string container;
  std::string container_name;
  tallies::CountedBy counted_by = tallies::CountedBy::kVolume;
  bool counts_waste = true;
  std::int64_t amount = 0;
};

struct QualityFigures {
  std::vector<EntryFigures> late;  ///< of this month, recorded after it
  std::vector<CorrectionFigures> corrections;
  std::vector<EntryFigures> unconfirmed;  ///< without a PIN, and not answered for yet
  std::vector<EntryFigures> disowned;     ///< without a PIN; their persons say it was not them
  std::vector<EarlierFigures> for_earlier_months;
  std::vector<RegisterFigures> register_changes;       ///< in order of the book
  std::vector<ContaminatedFigures> contaminated;       ///< in order of the book
  std::vector<BetweenStreamsFigures> between_streams;  ///< in order of the book
  std::vector<OddLevelFigures> below_zero;             ///< in order of id
  /// Retired by the end, in order of id. An amount of 0: something went in unmeasured.
  std::vector<OddLevelFigures> retired_not_empty;
};

/// The log of a labelled container over the half year up to the end of the month.
struct LevelCourse {
  struct Step {
    base::Timestamp at;
    std::int64_t level = 0;  ///< from then on
  };
  std::string container;
  std::string name;
  tallies::CountedBy counted_by = tallies::CountedBy::kVolume;
  std::int64_t working_limit = 0;  ///< 0: none
  std::int64_t opening = 0;
  std::vector<Step> steps;  ///< one a day, and one for each collection
  std::vector<base::Timestamp> collected;
  std::optional<FillingFigures> filling;
};

/// What arose of a stream in each of the twelve months up to this one.
struct StreamCourse {
  tallies::StreamFacts facts;
  std::vector<std::pair<base::CivilMonth, std::int64_t>> arisen;
};

enum class MonthState { kOver, kRunning, kNotBegun };

struct WasteMonthFigures {
  Frame frame;
  base::CivilMonth month;
  base::Timestamp from;
  base::Timestamp until;  ///< exclusive: the end of the month, or just after as_of
  MonthState month_state = MonthState::kOver;
  std::vector<StreamFigures> streams;  ///< in order of id
  MassTotals hazardous;
  MassTotals other;
  std::vector<ContainerFigures> containers;  ///< by stream, then by id
  std::vector<CollectedFigures> collected;   ///< in order of time
  std::vector<OpenDocument> open_documents;
  QualityFigures quality;
  std::optional<ClosingFigures> closing;
  std::vector<EffectFigures> effects;  ///< in order of time
  std::optional<Outlook> outlook;
  base::Timestamp levels_from;        ///< where the courses begin
  std::vector<LevelCourse> levels;    ///< in order of `containers`; those that held something
  std::vector<StreamCourse> courses;  ///< in order of `streams`
};

/// Pure: equal input gives equal figures. Things retired with nothing to tell are left out.
WasteMonthFigures make_waste_month(const WasteMonthInput& input);

base::Json waste_month_json(const WasteMonthFigures& figures);

/// Streams, containers, collections and totals alone: what can be told without the entries. The
/// frame and the data quality stay empty.
WasteMonthFigures make_month_sums(const tallies::State& state, const base::Zone& zone,
                                  base::CivilMonth month, base::Instant as_of);

}  // namespace benchwarden::reports
