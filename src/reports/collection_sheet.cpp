#include "reports/collection_sheet.h"

#include <algorithm>
#include <set>
#include <utility>

#include "reports/mass_figure.h"
#include "reports/sheet_load.h"
#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

using entries::CollectionStage;
using entries::TakenLoad;
using tallies::CollectionStages;
using tallies::CollectionTold;

SheetState sheet_state(const CollectionStages& stages) {
  if (tallies::was_taken(stages)) return SheetState::kTaken;
  const bool refused = std::any_of(stages.begin(), stages.end(), [](const auto& told) {
    return told.takes.stage == CollectionStage::kNotTaken;
  });
  return refused && tallies::open_plan(stages) == nullptr ? SheetState::kNothingTaken
                                                          : SheetState::kDraft;
}

/// The last one that was named.
std::string carrier_named(const CollectionStages& stages) {
  std::string carrier;
  for (const CollectionTold& told : stages) {
    if (!told.takes.carrier.empty()) carrier = told.takes.carrier;
  }
  return carrier;
}

std::vector<std::string> document_numbers(const CollectionStages& stages) {
  std::vector<std::string> numbers;
  for (const CollectionTold& told : stages) {
    const std::string& number = told.takes.document_number;
    const bool is_new = !number.empty() && told.takes.stage == CollectionStage::kTaken &&
                        std::find(numbers.begin(), numbers.end(), number) == numbers.end();
    if (is_new) numbers.push_back(number);
  }
  return numbers;
}

std::optional<std::int64_t> planned_amount(const tallies::StreamFacts& stream,
                                           const entries::Amount& amount) {
  if (stream.counted_by == tallies::CountedBy::kVolume) {
    return amount.volume ? std::optional(amount.volume->count()) : std::nullopt;
  }
  return amount.mass ? std::optional(amount.mass->count()) : std::nullopt;
}

/// Makes the loads of one collection.
class SheetLoads {
 public:
  SheetLoads(const CollectionSheetInput& input, const CollectionStages& stages)
      : input_(input), stages_(stages), ages_(input.state) {}

  std::vector<SheetLoad> planned() {
    std::vector<SheetLoad> loads;
    const CollectionTold* plan = tallies::last_plan(stages_);
    if (plan == nullptr) return loads;
    const base::Instant until{input_.basis.as_of.ms + 1};
    for (const TakenLoad& one : plan->takes.loads) {
      SheetLoad load = load_told(input_.state, ages_, input_.basis.zone, one.container, until);
      load.amount = planned_amount(load.stream, one.amount);
      if (load.amount) load.mass = stated_mass(load.stream, *load.amount);
      if (one.amount.mass && load.stream.counted_by == tallies::CountedBy::kVolume) {
        load.stated_mass = one.amount.mass->count();
      }
      load.seq = plan->seq;
      loads.push_back(std::move(load));
    }
    return loads;
  }

  std::vector<SheetLoad> taken() {
    const Month ever{input_.basis.zone,
                     base::kEarliest,
                     base::Instant{input_.basis.as_of.ms + 1},
                     base::Instant{input_.basis.as_of.ms + 1},
                     input_.basis.as_of,
                     input_.state.claims()};
    std::vector<SheetLoad> loads;
    for (const CollectedFigures& one : collected_in(input_.state, ever)) {
      if (one.collection != input_.collection) continue;
      SheetLoad load =
          load_told(input_.state, ages_, input_.basis.zone, one.container, one.taken_at.instant);
      load.amount = one.amount;
      load.mass = one.mass;
      load.stated_mass = one.stated_mass;
      load.weighed_mass = one.weighed_mass;
      load.seq = one.seq;
      load.emptied = emptied_by(one.seq, one.container);
      loads.push_back(std::move(load));
    }
    return loads;
  }

 private:
  [[nodiscard]] std::optional<bool> emptied_by(std::uint64_t seq,
                                               const std::string& container) const {
    for (const CollectionTold& told : stages_) {
      if (told.seq != seq) continue;
      for (const TakenLoad& load : told.takes.loads) {
        if (load.container == container) return load.emptied;
      }
    }
    return std::nullopt;
  }

  const CollectionSheetInput& input_;
  const CollectionStages& stages_;
  tallies::ContentAges ages_;
};

void add_totals(CollectionSheetFigures& figures) {
  figures.total_mass = 0;
  for (const SheetLoad& load : figures.loads) {
    if (load.stream.counted_by == tallies::CountedBy::kVolume && load.amount) {
      figures.total_volume = figures.total_volume.value_or(0) + *load.amount;
    }
    figures.total_mass = figures.total_mass && load.mass
                             ? std::optional(*figures.total_mass + *load.mass)
                             : std::nullopt;
  }
  if (figures.loads.empty()) figures.total_mass = std::nullopt;
}

/// What was planned last and did not go, once something went or all of it was refused.
void tell_left_behind(CollectionSheetFigures& figures, const tallies::State& state,
                      const CollectionStages& stages) {
  const CollectionTold* plan = tallies::last_plan(stages);
  if (plan == nullptr || figures.state == SheetState::kDraft) return;
  std::set<std::string> gone;
  if (figures.state == SheetState::kTaken) {
    for (const SheetLoad& load : figures.loads) gone.insert(load.container);
  }
  for (const TakenLoad& load : plan->takes.loads) {
    if (gone.contains(load.container)) continue;
    const tallies::Thing* thing = state.thing("container", load.container);
    figures.left_behind.emplace_back(
        load.container,
        thing == nullptr ? "" : std::string(tallies::word(thing->attributes, "name")));
  }
}

std::vector<SheetStage> sheet_stages(const CollectionSheetInput& input) {
  std::vector<SheetStage> stages;
  for (const RecordedEntry& recorded : input.entries) {
    if (recorded.entry.content.kind != "collection") continue;
    const auto* id = entries::find_field_as<entries::Id>(recorded.effective, "collection");
    if (!recorded.struck && (id == nullptr || id->slug != input.collection)) continue;
    const tallies::Claims& claims = input.state.claims();
    stages.push_back({entry_figures(recorded.entry, input.basis.zone, claims),
                      std::string(tallies::word(recorded.effective, "stage")), recorded.effective,
                      recorded.struck, corrections_of(recorded, input.basis.zone, claims)});
  }
  return stages;
}

std::optional<base::CivilDate> planned_day(const CollectionSheetFigures& figures,
                                           const CollectionStages& stages) {
  const CollectionTold* plan = tallies::last_plan(stages);
  if (plan == nullptr) return std::nullopt;
  for (const SheetStage& stage : figures.stages) {
    if (stage.entry.seq != plan->seq) continue;
    const auto* day = entries::find_field_as<base::CivilDate>(stage.told, "planned_date");
    if (day != nullptr) return *day;
  }
  return std::nullopt;
}

}  // namespace

CollectionSheetFigures make_collection_sheet(const CollectionSheetInput& input) {
  const CollectionStages stages = input.state.collection(input.collection);
  CollectionSheetFigures figures;
  figures.frame = frame_of(input.state, input.basis, input.names, input.forms);
  figures.collection = input.collection;
  figures.known = !stages.empty();
  if (!figures.known) return figures;
  figures.state = sheet_state(stages);
  if (const tallies::Thing* site = input.state.thing("workshop", "site")) {
    figures.emergency_phone = tallies::word(site->attributes, "emergency_phone");
  }
  figures.carrier = carrier_facts(input.state, carrier_named(stages));
  figures.documents = document_numbers(stages);
  SheetLoads loads(input, stages);
  figures.loads = figures.state == SheetState::kTaken ? loads.taken() : loads.planned();
  add_totals(figures);
  tell_left_behind(figures, input.state, stages);
  figures.stages = sheet_stages(input);
  figures.planned_for = planned_day(figures, stages);
  return figures;
}

}  // namespace benchwarden::reports
