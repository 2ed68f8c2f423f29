#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

/// Attributes that every month stands on, the months before their change as well.
constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kBehindEveryMonth{{
    {"workshop", "name"},
    {"workshop", "address"},
    {"workshop", "time_zone"},
    {"workshop", "site_reference"},
    {"stream", "name"},
    {"stream", "low_code"},
    {"stream", "hazardous"},
    {"stream", "density_kg_m3"},
    {"stream", "density_source"},
    {"container", "stream"},
}};

bool is_behind_every_month(std::string_view thing_class, std::string_view field) {
  return std::find(kBehindEveryMonth.begin(), kBehindEveryMonth.end(),
                   std::pair(thing_class, field)) != kBehindEveryMonth.end();
}

/// Collects what one register entry and its corrections altered after the month.
class RegisterTeller {
 public:
  RegisterTeller(const RecordedEntry& recorded, const Month& month,
                 std::vector<RegisterFigures>& told)
      : recorded_(recorded), month_(month), told_(told) {
    const entries::Fields& fields = recorded.entry.content.fields;
    const auto* thing_class = entries::find_field_as<entries::Code>(fields, "thing_class");
    const auto* thing = entries::find_field_as<entries::Id>(fields, "thing");
    if (thing_class != nullptr) thing_class_ = thing_class->slug;
    if (thing != nullptr) thing_ = thing->slug;
  }

  void tell() {
    std::vector<std::string> given;
    for (const entries::Field& field : recorded_.entry.content.fields) given.push_back(field.name);
    const auto* act = entries::find_field_as<entries::Code>(recorded_.entry.content.fields, "act");
    // What was added after the month altered nothing that was there before.
    if (act != nullptr && act->slug == "changed") {
      add(entry_figures(recorded_.entry, month_.zone, month_.claims), given);
    }
    for (const CorrectionFigures& correction :
         corrections_of(recorded_, month_.zone, month_.claims)) {
      std::vector<std::string> altered;
      for (const FieldChange& change : correction.changes) altered.push_back(change.field);
      add(correction.by, correction.struck ? given : altered);
    }
  }

 private:
  void add(const EntryFigures& by, const std::vector<std::string>& fields) {
    if (by.recorded_at.instant < month_.end) return;
    RegisterFigures figures{by, thing_class_, thing_, {}};
    for (const std::string& field : fields) {
      if (is_behind_every_month(thing_class_, field)) figures.fields.push_back(field);
    }
    if (!figures.fields.empty()) told_.push_back(std::move(figures));
  }

  const RecordedEntry& recorded_;
  const Month& month_;
  std::vector<RegisterFigures>& told_;
  std::string thing_class_;
  std::string thing_;
};

}  // namespace

std::vector<RegisterFigures> register_changes_after(const std::vector<RecordedEntry>& entries,
                                                    const Month& month) {
  std::vector<RegisterFigures> told;
  for (const RecordedEntry& recorded : entries) {
    if (recorded.entry.content.kind != kRegisterChange) continue;
    RegisterTeller(recorded, month, told).tell();
  }
  std::stable_sort(told.begin(), told.end(),
                   [](const auto& a, const auto& b) { return a.by.seq < b.by.seq; });
  return told;
}

}  // namespace benchwarden::reports
