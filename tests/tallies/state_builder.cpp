#include "tallies/state_builder.h"

#include <utility>

#include "quantities/units.h"

namespace benchwarden::tallies {

using entries::Amount;
using entries::Effect;
using entries::Effects;
using entries::RegisterAct;

base::Instant day(int number) { return {std::int64_t{number} * 86'400'000}; }
base::Instant hour(int number) { return {std::int64_t{number} * 3'600'000}; }
base::Instant at(const std::string& rfc3339) { return base::parse_rfc3339(rfc3339)->instant; }
Amount ml(std::int64_t count) { return {quantities::Microlitres(count * kMl), std::nullopt}; }
Amount kg(std::int64_t count) { return {std::nullopt, quantities::Milligrams(count * kKg)}; }

Effect adds(const std::string& container, Amount amount) {
  return entries::Adds{container, amount};
}
Effect moves(const std::string& from, const std::string& to, Amount amount) {
  return entries::Moves{from, to, amount};
}
Effect takes(const std::string& collection, std::vector<entries::TakenLoad> loads) {
  return entries::Takes{collection, entries::CollectionStage::kTaken, "", "", std::move(loads)};
}
Effect reads(const std::string& container, Amount amount) {
  return entries::Reads{container, amount};
}
Effect handles(const std::string& container, entries::ContainerAct act) {
  return entries::Handles{container, act};
}
Effect checks(const std::string& tool, entries::Outcome outcome) {
  return entries::Checks{"tool", tool, outcome};
}

entries::Field text_field(const std::string& name, const std::string& text) {
  return {name, entries::Text{text}};
}
entries::Field code_field(const std::string& name, const std::string& code) {
  return {name, entries::Code{code}};
}
entries::Field id_field(const std::string& name, const std::string& id) {
  return {name, entries::Id{id}};
}
entries::Field number_field(const std::string& name, std::int64_t thousandths,
                            const std::string& unit) {
  return {name, quantities::Quantity{{thousandths}, quantities::find_unit(unit)}};
}

Effect enters(const std::string& thing_class, const std::string& id, entries::Fields attributes) {
  return entries::Changes{thing_class, id, RegisterAct::kAdded, std::move(attributes)};
}
Effect alters(const std::string& thing_class, const std::string& id, entries::Fields attributes) {
  return entries::Changes{thing_class, id, RegisterAct::kChanged, std::move(attributes)};
}
Effect retires(const std::string& thing_class, const std::string& id) {
  return entries::Changes{thing_class, id, RegisterAct::kRetired, {}};
}

namespace {

Effect container(const std::string& id, const std::string& stream,
                 const std::string& counts_waste) {
  return enters("container", id,
                {text_field("name", "Container " + id), id_field("stream", stream),
                 number_field("capacity_l", 200'000, "l"),
                 number_field("working_limit_percent", 90'000, "percent"),
                 code_field("counts_waste", counts_waste)});
}

}  // namespace

Effects usual_register() {
  return {enters("stream", "oil",
                 {text_field("name", "Waste oil"), text_field("low_code", "13 01 10"),
                  code_field("hazardous", "yes"), code_field("counted_by", "volume"),
                  number_field("density_kg_m3", 900'000, "kg_m3")}),
          enters("stream", "mix", {code_field("counted_by", "volume")}),
          enters("stream", "rags",
                 {text_field("name", "Rags"), code_field("hazardous", "no"),
                  code_field("counted_by", "mass")}),
          container("w1", "oil", "yes"),
          container("w2", "oil", "yes"),
          container("m1", "mix", "yes"),
          container("drum", "rags", "yes"),
          container("can", "oil", "no"),
          container("bin", "rags", "no")};
}

std::uint64_t BookUnderTest::enter(base::Instant at, Effects effects) {
  return enter(Posting{0, at, at, true, std::move(effects)});
}

std::uint64_t BookUnderTest::enter(Posting posting) {
  posting.seq = state_.size() + 1;
  state_.apply(posting);
  standing_[posting.seq] = posting;
  return posting.seq;
}

std::uint64_t BookUnderTest::amend(Amendment amendment) {
  Posting& target = standing_.at(amendment.target_seq);
  amendment.seq = state_.size() + 1;
  amendment.recorded_at = target.recorded_at;
  amendment.target_occurred_at = target.occurred_at;
  amendment.before = target.effects;
  state_.apply(amendment);
  target.effects = amendment.after;
  return amendment.seq;
}

std::uint64_t BookUnderTest::correct(std::uint64_t target, Effects effects) {
  Amendment amendment;
  amendment.target_seq = target;
  amendment.after = std::move(effects);
  return amend(std::move(amendment));
}

std::uint64_t BookUnderTest::strike(std::uint64_t target, SentBy sent_by) {
  Amendment amendment;
  amendment.sent_by = std::move(sent_by);
  amendment.target_seq = target;
  amendment.struck = true;
  return amend(std::move(amendment));
}

}  // namespace benchwarden::tallies
