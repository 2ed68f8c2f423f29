#include "busy_shop.h"

#include <array>

#include "base/json.h"
#include "base/uuid.h"

namespace benchwarden::bench {
namespace {

constexpr int kOpens = 8 * 60;
constexpr std::int64_t kStepMs = 84'000;  // kEntriesOfADay of them are nine hours

template <std::size_t count>
std::string one_of(demo::Dice& dice, const std::array<const char*, count>& names) {
  return names.at(static_cast<std::size_t>(dice.between(0, count - 1)));
}

/// A member of an object, with its comma.
std::string member(const char* name, const std::string& value) {
  return std::string(",\"") + name + "\":\"" + value + "\"";
}

std::string member(const char* name, std::int64_t value) {
  return std::string(",\"") + name + "\":" + std::to_string(value);
}

}  // namespace

void BusyShop::live(base::CivilDate day) {
  if (!almanac_.is_open(day)) return;
  now_ = almanac_.at(day, kOpens);
  demo::Dice dice(static_cast<std::uint64_t>(now_.ms));
  const std::string month = base::format_month(base::month_of(day));
  if (month != month_) begin_month(month);
  if (is_last_month()) check_cylinder("n3");
  for (int number = 0; number < kEntriesOfADay; ++number) work(dice);
}

void BusyShop::begin_month(const std::string& month) {
  month_ = month;
  if (level_ml_["w1"] != 0) hand_over(month);
  if (!is_last_month()) return;
  tell("register-change",
       R"({"thing_class":"cylinder","act":"added","name":"Nitrogen","gas":"nitrogen",)"
       R"("water_capacity_l":10,"working_pressure_bar":200)" +
           member("thing", "n3") + "}");
}

void BusyShop::hand_over(const std::string& month) {
  tell("transfer", R"({"from_container":"w3","to_container":"w2"})");
  level_ml_["w2"] += level_ml_["w3"];
  level_ml_["w3"] = 0;
  const std::string named = "{\"collection\":\"c" + month + "\"";
  const std::string document = member("document_number", "SDWORK/" + month);
  std::string loads = R"({"container":"d1","emptied":"yes")" + member("mass_kg", rags_kg_) + "}";
  for (const char* container : {"w1", "w2"}) {
    loads += R"(,{"emptied":"yes")" + member("container", container) +
             member("volume_ml", level_ml_[container]) + "}";
    level_ml_[container] = 0;
  }
  rags_kg_ = 0;
  tell("collection", named + member("stage", "taken") + member("carrier", "tideline") + document +
                         ",\"loads\":[" + loads + "]}");
  tell("collection", named + member("stage", "document-returned") + document + "}");
}

void BusyShop::work(demo::Dice& dice) {
  const std::int64_t share = dice.between(1, 100);
  if (share <= 66) return drain(dice);
  if (share <= 80) return throw_rags();
  if (share <= 89) return read_level(dice);
  if (share <= 94) return check_cylinder(one_of<2>(dice, {"n1", "n2"}));
  if (share <= 98) return inspect_tool(dice);
  look_at_container(dice);
}

void BusyShop::drain(demo::Dice& dice) {
  const std::string container = one_of<3>(dice, {"w1", "w2", "w3"});
  const std::int64_t volume_ml = dice.between(5, 20);
  level_ml_[container] += volume_ml;
  tell("oil-drained", R"({"fluid":"mineral-oil","measured_by":"jug","contamination":"none")" +
                          member("container", container) + member("volume_ml", volume_ml) +
                          member("unit_count", dice.between(1, 3)) + "}");
}

void BusyShop::throw_rags() {
  // Whole kilograms are told: one in so many handfuls.
  constexpr std::uint64_t kHandfulsOfAKilogram = 20;
  if (++handfuls_ % kHandfulsOfAKilogram != 0) {
    return tell("rag-bin", R"({"container":"b1","bin_act":"added","contaminant":"mineral-oil"})");
  }
  ++rags_kg_;
  tell("rag-bin",
       R"({"container":"d1","bin_act":"added","contaminant":"mineral-oil","mass_kg":1})");
}

void BusyShop::read_level(demo::Dice& dice) {
  const std::string container = one_of<3>(dice, {"w1", "w2", "w3"});
  const std::int64_t seen_ml = level_ml_[container] + dice.between(-100, 100);
  tell("level-reading", R"({"reading_method":"dip")" + member("container", container) +
                            member("volume_ml", std::max(seen_ml, std::int64_t{0})) + "}");
}

void BusyShop::check_cylinder(const std::string& cylinder) {
  tell("cylinder-check",
       R"({"leak_test":"passed","secured":"yes","valve_protection":"cap","label_legible":"yes",)"
       R"("ventilation_state":"running","oxygen_alarm":"working")" +
           member("cylinder", cylinder) + member("gauge_pressure_bar", 150) +
           member("ambient_temperature_c", 20) + "}");
}

void BusyShop::inspect_tool(demo::Dice& dice) {
  tell("tool-inspection",
       R"({"inspected_class":"tool","body_condition":"passed","seals_condition":"passed",)"
       R"("marking_condition":"passed","hose_condition":"passed",)"
       R"("needle_condition":"not-applicable","result":"in-service")" +
           member("tool", one_of<6>(dice, {"c1", "h1", "h2", "h3", "o1", "o2"})) + "}");
}

void BusyShop::look_at_container(demo::Dice& dice) {
  tell("container-inspection",
       R"({"closed":"yes","label_legible":"yes","leak_free":"yes","damage":"none",)"
       R"("bund_dry":"yes","aisle_clear":"yes","spill_kit":"yes")" +
           member("container", one_of<5>(dice, {"w1", "w2", "w3", "s1", "d1"})) + "}");
}

void BusyShop::tell(const char* kind, const std::string& fields) {
  now_.ms += kStepMs;
  clock_.set(now_);
  std::array<std::uint8_t, 10> tail{};
  for (std::uint64_t rest = ++told_; std::uint8_t & byte : tail) {
    byte = static_cast<std::uint8_t>(rest);
    rest >>= 8U;
  }
  const std::string submission = R"({"id":")" + base::format_uuid(base::make_uuid7(now_, tail)) +
                                 R"(","kind":")" + kind + R"(","occurred_at":")" +
                                 base::format_rfc3339_utc(now_) + R"(","fields":)" + fields + "}";
  const bool by_manager =
      kind == std::string("collection") || kind == std::string("register-change");
  const auto json = base::parse_json(submission);
  if (!json) demo::give_up(submission);
  const auto outcome =
      workshop::record(ports_, by_manager ? people_.manager : people_.technician, *json);
  if (std::holds_alternative<workshop::Recorded>(outcome)) return;
  std::string why = "not taken: " + submission;
  if (const auto* faults = std::get_if<workshop::Faults>(&outcome)) {
    for (const workshop::Fault& fault : *faults) why += "\n  " + fault.sentence;
  }
  demo::give_up(why);
}

}  // namespace benchwarden::bench
