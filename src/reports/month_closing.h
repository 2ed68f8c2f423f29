#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/json.h"
#include "reports/corrections.h"
#include "reports/input.h"
#include "reports/stream_figures.h"
#include "tallies/facts.h"

namespace benchwarden::reports {

struct WasteMonthFigures;

/// The closing of a month that stands, handed in.
struct MonthClosing {
  entries::Entry entry;
  std::uint64_t book_size = 0;  ///< the figures that were signed are those of the book of this size
  std::string digest;           ///< as the entry says; "" where it says none
  std::string statement;        ///< likewise
  std::vector<StreamFigures> streams;  ///< of the book of that size
  /// Whether the digest is that of those figures; none where the entry has no digest.
  std::optional<bool> digest_holds;
};

/// A stream whose figures are others than those that were signed.
struct StreamDifference {
  struct Pair {
    std::int64_t then = 0;
    std::int64_t now = 0;
  };
  struct MassPair {
    std::optional<std::int64_t> then;
    std::optional<std::int64_t> now;
  };
  tallies::StreamFacts facts;
  Pair arisen;
  Pair collected;
  Pair standing;
  MassPair arisen_mass;
  MassPair collected_mass;
  MassPair standing_mass;
};

/// What became of a month since it was closed.
struct ClosingFigures {
  EntryFigures entry;
  std::uint64_t book_size = 0;
  std::string digest;
  std::optional<bool> digest_holds;
  std::string statement;
  std::vector<EntryFigures> late;              ///< of the month, in the book after it was closed
  std::vector<CorrectionFigures> corrections;  ///< of entries of the month, likewise
  std::vector<StreamDifference> differences;   ///< in order of id
};

/// `entries`: those of the month. `figures`: its streams as they are now.
ClosingFigures closing_of(const MonthClosing& closing, const WasteMonthFigures& figures,
                          const std::vector<const RecordedEntry*>& entries, const base::Zone& zone,
                          const tallies::Claims& claims);

/// The streams whose figures are others `now`, in order of id.
std::vector<StreamDifference> differences_of(const std::vector<StreamFigures>& then,
                                             const std::vector<StreamFigures>& now);
base::Json differences_json(const std::vector<StreamDifference>& differences);

base::Json closing_json(const std::optional<ClosingFigures>& closing);

base::Json totals_json(const MassTotals& totals);

/// The figures that are signed: month, streams with what arose, was collected and stands, totals.
/// What has no figure, and names, stay out, so that renaming a stream changes no digest.
base::Json month_totals_json(const WasteMonthFigures& figures);
/// SHA-256 over those in the bytes of RFC 8785, in hex.
std::string month_digest(const WasteMonthFigures& figures);

}  // namespace benchwarden::reports
