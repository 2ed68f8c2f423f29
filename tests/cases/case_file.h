#pragma once

#include <optional>
#include <string>
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
  std::string by;           ///< "manager", "technician", "competent"
  std::string corrects;     ///< the name of an earlier entry
  std::string reason;
  base::JsonObject fields;
  base::JsonArray confirmed;
  std::vector<std::string> refused;  ///< "/fields/volume_ml impossible"; none: it is recorded
  int line = 0;
};

/// What is said at one moment. A list that is not written is not looked at.
struct Look {
  std::string at;
  std::optional<std::vector<std::string>> findings;
  std::optional<std::vector<std::string>> due;
  std::optional<std::vector<std::string>> advice;
  std::optional<std::vector<std::string>> retained;
  std::optional<std::vector<std::string>> levels;
  int line = 0;
};

/// A case as a workshop manager could read it: what was entered, and what is said of it when.
struct CaseFile {
  std::string file;
  std::string title;
  std::string source;              ///< of what is expected
  std::string pack;                ///< the jurisdiction, "" for none
  std::vector<std::string> rules;  ///< those looked at; none: all in force
  std::vector<CaseEntry> entries;
  std::vector<Look> looks;
};

base::Result<CaseFile, base::FileFaults> read_case(const std::string& text, const std::string& file,
                                                   const forms::Catalog& catalog);

}  // namespace benchwarden::cases
