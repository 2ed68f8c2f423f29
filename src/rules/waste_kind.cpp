#include "rules/waste_kind.h"

#include <algorithm>
#include <array>
#include <utility>

#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

/// By chapters and groups of the List of Waste (Commission Decision 2000/532/EC, Annex).
constexpr std::array<std::pair<std::string_view, std::string_view>, 4> kTypes{
    {{"13", "used-oil"},
     {"14", "spent-solvent"},
     {"15 01", "packaging"},
     {"15 02", "oily-solids"}}};

/// Codes of oils and solvents that hold halogens, those with PCB among them; the same source.
constexpr std::array<std::string_view, 9> kHalogenated{"13 01 01", "13 01 04", "13 01 09",
                                                       "13 02 04", "13 03 01", "13 03 06",
                                                       "14 06 01", "14 06 02", "14 06 04"};

std::string_view type_of_code(std::string_view code) {
  const auto found = std::find_if(kTypes.begin(), kTypes.end(), [&](const auto& one) {
    return code.substr(0, one.first.size()) == one.first;
  });
  return found == kTypes.end() ? std::string_view() : found->second;
}

}  // namespace

WasteKind kind_of_stream(const entries::Fields& stream) {
  WasteKind kind;
  kind.code = tallies::word(stream, "low_code");
  kind.type = tallies::word(stream, "waste_type");
  if (kind.type.empty()) kind.type = type_of_code(kind.code);
  const std::string_view said = tallies::word(stream, "halogenated");
  const bool by_code =
      std::find(kHalogenated.begin(), kHalogenated.end(), kind.code) != kHalogenated.end();
  kind.halogenated = said.empty() ? by_code : said == "yes";
  return kind;
}

WasteKind brought_by(const tallies::Record& record) {
  WasteKind kind;
  if (record.kind == "oil-drained") {
    kind.type = "used-oil";
  } else if (record.kind == "solvent-waste") {
    kind.type = "spent-solvent";
    kind.halogenated = record.word("solvent") == "halogenated";
  } else if (record.kind == "rag-bin" && record.word("bin_act") != "checked-at-close") {
    kind.type = "oily-solids";
    kind.may_be = "solvent-wipes";
  }
  return kind;
}

bool belongs_elsewhere(const WasteKind& brought, const WasteKind& own) {
  if (brought.type.empty() || own.type.empty()) return false;
  if (brought.type != own.type && brought.may_be != own.type) return true;
  return brought.halogenated && !own.halogenated && !own.code.empty();
}

}  // namespace benchwarden::rules
