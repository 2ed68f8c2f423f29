#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "findings/generator_month.h"
#include "reports/carrier_facts.h"
#include "reports/returns.h"
#include "reports/waste_month.h"

namespace benchwarden::reports {

inline constexpr int kMonthsOfYear = 12;

/// The closing of a month that stands, and whether its figures are still those that were signed.
struct MonthSigned {
  std::uint64_t entry = 0;
  bool holds = true;  ///< false: others by now, or a digest that is none of them
};

/// What a pack in force says that returns ask for.
struct ReturnsStated {
  std::string pack;
  std::string title;
  std::vector<ReturnDefinition> returns;
};

struct WasteYearInput {
  const tallies::State& state;
  int year = 0;
  Basis basis;
  /// At least those that occurred in the year, with all their corrections.
  std::vector<RecordedEntry> entries;
  Names names;
  FormTexts forms;
  std::map<int, MonthSigned> closings;  ///< by number of the month
  std::vector<ReturnsStated> returns;
  std::vector<findings::GeneratorMonth> generator_months;
  base::CivilMonth begins = {};  ///< the month the book begins in
};

/// One stream in one month, in the unit it is counted by. `other` is what changed its stock beside
/// arising and collections: emptied or moved into another stream.
/// Opening + arisen - collected + other = closing, exactly.
struct StreamMonth {
  base::CivilMonth month;
  std::int64_t opening = 0;
  std::int64_t arisen = 0;
  std::int64_t collected = 0;
  std::int64_t other = 0;
  std::int64_t closing = 0;
  std::optional<std::int64_t> arisen_mass;
  std::optional<std::int64_t> collected_mass;
};

/// A stream over the year: amounts and masses are sums of those of its months.
struct StreamYear {
  StreamFigures sums;
  std::int64_t opening = 0;
  std::int64_t other = 0;
  std::string national_code;
  std::string waste_type;
  std::vector<StreamMonth> months;  ///< those that had begun
};

struct YearMonth {
  base::CivilMonth month;
  MonthState state = MonthState::kOver;
  std::optional<MonthSigned> closing;
};

struct CarrierFigures {
  CarrierFacts facts;
  std::size_t collections = 0;  ///< of the year
};

/// One line of a return: what is asked for of one code in one period.
struct ReturnLine {
  int quarter = 0;  ///< 1 … 4; 0: the year
  std::string code;
  std::vector<std::string> streams;         ///< ids
  std::optional<std::int64_t> mass;         ///< mg, a sum of masses of months
  std::optional<std::int64_t> thousandths;  ///< the same in the unit of the return, rounded once
  /// Of a return of what was collected: as weighed, in that unit too; none where one was not.
  std::optional<std::int64_t> weighed_thousandths = std::nullopt;
};
struct ReturnFigures {
  std::string pack;
  std::string pack_title;
  ReturnDefinition asked;
  std::vector<ReturnLine> lines;
};

struct YearQuality {
  std::vector<EntryFigures> late;  ///< recorded after their month had ended
  std::vector<CorrectionFigures> corrections;
  std::vector<EntryFigures> unconfirmed;
  std::vector<EntryFigures> disowned;
};

struct WasteYearFigures {
  Frame frame;
  int year = 0;
  base::Timestamp from;
  base::Timestamp until;  ///< exclusive: the end of the year, or just after as_of
  MonthState state = MonthState::kOver;
  std::optional<base::CivilMonth> begins;  ///< the month the book begins in, if not before the year
  std::vector<YearMonth> months;           ///< all twelve
  std::vector<StreamYear> streams;         ///< in order of id
  MassTotals hazardous;
  MassTotals other;
  std::vector<CollectedFigures> consignments;  ///< in order of time
  std::vector<OpenDocument> open_documents;    ///< of earlier years
  std::vector<CarrierFigures> carriers;        ///< in order of id
  std::vector<ReturnFigures> returns;
  std::vector<findings::GeneratorMonth> generator_months;
  YearQuality quality;
};

/// Pure: equal input gives equal figures. The figures of each month are those of its own report.
WasteYearFigures make_waste_year(const WasteYearInput& input);

/// What the returns of the packs ask for, by the streams of a year and what was collected in it.
std::vector<ReturnFigures> returns_of(const std::vector<ReturnsStated>& stated,
                                      const std::vector<StreamYear>& streams,
                                      const std::vector<CollectedFigures>& consignments,
                                      const base::Zone& zone);
/// How many collections there are among consignments, and how many documents that are not back.
std::size_t count_collections(const std::vector<CollectedFigures>& consignments);
std::size_t count_documents_not_back(const std::vector<CollectedFigures>& consignments);

base::Json waste_year_json(const WasteYearFigures& figures);

}  // namespace benchwarden::reports
