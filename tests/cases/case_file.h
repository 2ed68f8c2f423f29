#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/json.h"
#include "base/toml.h"
#include "forms/catalog.h"

namespace benchwarden::cases {

/// One entry of a case, in the order of the book.
struct CaseEntry {
  std::string name;  ///< by which a later entry corrects it; "" mostly
  std::string kind;
  std::string occurred_at;
  std::string recorded_at;  ///< when the clock stood so; mostly when it occurred
  std::string by;        ///< "manager", "technician", "technician-without-pin" …: see cases_test
  std::string device;    ///< the paired one it comes from, "" mostly
  std::string person;    ///< in whose name, by id: "p2"; "" mostly
  std::string corrects;  ///< the name of an earlier entry
  std::string reason;
  base::JsonObject fields;
  base::JsonArray confirmed;
  std::string raw;                   ///< the whole submission as it was sent, "" mostly
  std::vector<std::string> refused;  ///< "/fields/volume_ml impossible"; none: it is recorded
  int line = 0;
};

/// The totals of one month, as the report of that month has them.
struct MonthTotals {
  std::string month;               ///< "2026-11"
  std::vector<std::string> lines;  ///< "oil: 5000 mL arisen, 0 mL collected, 5000 mL standing"
};

/// What is said at one moment of what was entered above it. A list that is not written is not
/// looked at.
struct Look {
  std::string at;
  std::string as_of;  ///< looks back on what had happened by then; "": by `at`
  std::string known;  ///< and by what was recorded until then; "": until `at`
  std::optional<std::vector<std::string>> findings;
  std::optional<std::vector<std::string>> due;
  std::optional<std::vector<std::string>> advice;
  std::optional<std::vector<std::string>> retained;
  std::optional<std::vector<std::string>> levels;
  std::optional<MonthTotals> month;
  int line = 0;
};

/// A case as a workshop manager could read it: what was entered, and what is said of it when.
struct CaseFile {
  std::string file;
  std::string title;
  std::string source;                                ///< of what is expected
  std::string pack;                                  ///< the jurisdiction, "" for none
  std::vector<std::string> rules;                    ///< those looked at; none: all in force
  std::vector<std::variant<CaseEntry, Look>> steps;  ///< in the order in which they are written
};

base::Result<CaseFile, base::FileFaults> read_case(const std::string& text, const std::string& file,
                                                   const forms::Catalog& catalog);

}  // namespace benchwarden::cases
