#include "workshop/test_workshop.h"

#include <atomic>
#include <sstream>

#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

std::atomic<std::uint64_t> ids_given{0};

std::string next_id() { return base::format_uuid(testing::id_of(++ids_given)); }

constexpr const char* kOpened = "2026-01-05T08:00:00+01:00";

std::string thing(const std::string& thing_class, const std::string& id, const std::string& more) {
  return R"({"thing_class":")" + thing_class + R"(","thing":")" + id + R"(","act":"added",)" +
         more + "}";
}

std::string container(const std::string& id, const std::string& stream, const std::string& counts) {
  return thing("container", id,
               R"("name":"Container )" + id + R"(","stream":")" + stream +
                   R"(","shape":"drum","capacity_l":205,"working_limit_percent":90,)" +
                   R"("counts_waste":")" + counts + "\"");
}

std::string cylinder(const std::string& id) {
  return thing("cylinder", id,
               R"("name":"Nitrogen )" + id +
                   R"(","gas":"nitrogen","water_capacity_l":50,"working_pressure_bar":200)");
}

std::vector<std::string> usual_register() {
  return {
      thing(
          "workshop", "site",
          R"("name":"Saltmarsh Damper Works","address":"Quay Shed 4","time_zone":"Europe/Berlin")"),
      thing("stream", "oil", R"("name":"Used oil","low_code":"13 01 10","hazardous":"yes",
                                "counted_by":"volume","density_kg_m3":870)"),
      thing("stream", "rags", R"("name":"Oily rags","low_code":"15 02 02","hazardous":"yes",
                                 "counted_by":"mass")"),
      container("w1", "oil", "yes"),
      container("w2", "oil", "yes"),
      container("bin", "rags", "no"),
      container("drum", "rags", "yes"),
      cylinder("n1"),
      cylinder("n2"),
      thing("tool", "r1", R"("name":"Regulator","tool_type":"regulator")"),
      thing("carrier", "k1", R"("name":"Harbour Haulage","registration_number":"INV-1")")};
}

std::string all_faults(const RecordOutcome& outcome) {
  if (const auto* error = std::get_if<base::Error>(&outcome)) return error->detail;
  std::string text;
  if (const auto* faults = std::get_if<Faults>(&outcome)) {
    for (const Fault& fault : *faults) text += fault.pointer + ": " + fault.sentence + "\n";
  }
  return text;
}

const base::Json* step_into(const base::Json& json, const std::string& name) {
  const base::JsonArray* array = json.array();
  if (array == nullptr) return json.find(name);
  const std::size_t index = std::stoul(name);
  return index < array->size() ? &(*array)[index] : nullptr;
}

}  // namespace

void give_ids_anew() { ids_given = 0; }

base::Instant at(std::string_view rfc3339) { return base::parse_rfc3339(rfc3339)->instant; }

base::Json parsed(const std::string& text) {
  auto json = base::parse_json(text, 40);
  if (!json) {
    ADD_FAILURE() << json.error().detail << "\n" << text;
    return nullptr;
  }
  return *std::move(json);
}

Told tell(const std::string& kind, const std::string& fields, const std::string& occurred_at,
          const std::string& more) {
  const std::string id = next_id();
  return {id, parsed(R"({"id":")" + id + R"(","kind":")" + kind + R"(","occurred_at":")" +
                     occurred_at + R"(","fields":)" + fields + more + "}")};
}

Told correct(const std::string& target, const std::string& fields, const std::string& occurred_at) {
  const std::string own = R"({"action":"corrected",)" + fields.substr(1);
  return tell("correction", own, occurred_at,
              R"(,"corrects":")" + target + R"(","reason":"read wrongly")");
}

Told strike_out(const std::string& target, const std::string& occurred_at) {
  return tell("correction", R"({"action":"struck-out"})", occurred_at,
              R"(,"corrects":")" + target + R"(","reason":"undone at once")");
}

Told drain(const std::string& container, const std::string& volume_ml,
           const std::string& occurred_at) {
  return tell("oil-drained",
              R"({"container":")" + container + R"(","volume_ml":)" + volume_ml + "}", occurred_at);
}

Told under_id(const Told& told, const std::string& id) {
  Told other{id, told.json};
  for (auto& [name, value] : *other.json.object()) {
    if (name == "id") value = id;
  }
  return other;
}

book::Receipt receipt_of(const RecordOutcome& outcome) {
  const auto* recorded = std::get_if<Recorded>(&outcome);
  if (recorded != nullptr) return recorded->receipt;
  ADD_FAILURE() << all_faults(outcome);
  return {};
}

std::vector<std::string> faults_of(const RecordOutcome& outcome) {
  std::vector<std::string> lines;
  const auto* faults = std::get_if<Faults>(&outcome);
  if (faults == nullptr) return lines;
  for (const Fault& fault : *faults) lines.push_back(fault.pointer + " " + fault.code);
  return lines;
}

std::string value_at(const base::Json& json, const std::string& path) {
  const base::Json* place = &json;
  std::istringstream names(path);
  for (std::string name; std::getline(names, name, '/');) {
    place = step_into(*place, name);
    if (place == nullptr) return "";
  }
  return base::write_json(*place);
}

TestWorkshop::TestWorkshop(Register filled, const Definitions& definitions)
    : definitions_(definitions) {
  clock.set(at(kNow));
  open();
  if (filled == Register::kEntered) enter_register();
}

void TestWorkshop::open() {
  open_.reset();
  auto opened = OpenBook::open(folder(), definitions_, clock, names_);
  if (!opened) ADD_FAILURE() << opened.error().detail;
  open_ = std::move(opened).value();
  open_->sign_with(seal::SigningKey(std::string(seal::SigningKey::kSeedBytes, 't')));
}

void TestWorkshop::enter_register() const {
  for (const std::string& fields : usual_register()) {
    enter(tell("register-change", fields, kOpened));
  }
}

std::string TestWorkshop::enter(const Told& told, const Actor& actor) const {
  const auto outcome = send(told, actor);
  EXPECT_TRUE(std::holds_alternative<Recorded>(outcome))
      << all_faults(outcome) << base::write_json(told.json);
  return told.id;
}

base::Json TestWorkshop::level(const std::string& container) const {
  const auto levels = show_levels(ports(), std::nullopt);
  if (!levels) {
    ADD_FAILURE() << levels.error().detail;
    return nullptr;
  }
  for (const base::Json& level : *levels->find("levels")->array()) {
    if (*level.find("container")->string() == container) return level;
  }
  ADD_FAILURE() << "there is no container " << container;
  return nullptr;
}

}  // namespace benchwarden::workshop
