#include "world.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "base/zone.h"

namespace benchwarden::forms {
namespace {

const std::string kNothing = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

std::string read_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

}  // namespace

const base::DataFiles& real_files() {
  static std::vector<std::string> contents;
  static const base::DataFiles files = [] {
    const std::filesystem::path top(BENCHWARDEN_TOP);
    std::vector<std::filesystem::path> paths;
    for (const char* folder : {"forms/definitions", "forms/wording"}) {
      for (const auto& item : std::filesystem::directory_iterator(top / folder)) {
        if (item.path().extension() == ".toml") paths.push_back(item.path());
      }
    }
    for (const auto& path : paths) contents.push_back(read_file(path));
    base::DataFiles all;
    for (std::size_t i = 0; i < paths.size(); ++i) {
      all.push_back({std::filesystem::relative(paths[i], top).string(), contents[i]});
    }
    return all;
  }();
  return files;
}

const Catalog& real_catalog() {
  static const Catalog catalog = [] {
    auto loaded = Catalog::load(real_files());
    if (!loaded) ADD_FAILURE() << base::format_faults(loaded.error());
    return std::move(loaded).value();
  }();
  return catalog;
}

World::World() : now_(base::parse_rfc3339("2026-11-25T09:00:00Z")->instant) {
  for (const char* name :
       {"container/w1", "container/w2", "container/rag-bin", "container/rag-drum", "cylinder/n1",
        "tool/r1", "gauge/g1", "stream/oil", "carrier/c1", "person/p1", "person/p2", "plant/x1",
        "cabinet/k1", "product/cleaner", "room/hall"}) {
    things[name] = Thing{};
  }
  const char* const kTakenAt = "2026-11-20T10:00:00Z";
  collections["c"] = {told_taken("c", "N 4711", {"w1", "w3"}, kTakenAt)};
  collections["c-2026-11"] = {told_taken("c-2026-11", "N 4711", {"w3"}, kTakenAt)};
  const base::Instant opened_at = base::parse_rfc3339("2026-11-25T07:30:00Z")->instant;
  const auto stage = [&](const char* code) {
    return Told{opened_at, "stuck-part", {{"work_stage", entries::Code{code}}}};
  };
  used["stuck-part/s1"] = {stage("opened")};
  used["stuck-part/s2"] = {stage("opened"), stage("closed")};
  used["event/e1"] = {{opened_at, "event", {}}};
  things["container/w3"] = Thing{false, false, {}};
  things["container/w4"] = Thing{true, true, {}};
  things["cylinder/n4"] = Thing{true, true, {}};
  things["tool/r2"] = Thing{false, false, {}};
  things["container/w1"].attributes = {
      {"capacity_l", quantities::Quantity{base::Decimal{205'000}, quantities::find_unit("l")}},
      {"counts_waste", entries::Code{"yes"}},
      {"name", entries::Text{"Oil drum"}},
      {"stream", entries::Id{"oil"}}};
}

Surroundings::ToldStage told_taken(const std::string& collection, const std::string& document,
                                   const std::vector<std::string>& containers,
                                   std::string_view at) {
  entries::Takes takes{collection, entries::CollectionStage::kTaken, "c1", document, {}};
  for (const std::string& container : containers) takes.loads.push_back({container, {}, false});
  return {base::parse_rfc3339(at)->instant, takes};
}

std::vector<Surroundings::ToldStage> World::stages(std::string_view collection,
                                                   const std::optional<base::Uuid>&) const {
  const auto found = collections.find(collection);
  return found == collections.end() ? std::vector<ToldStage>() : found->second;
}

std::vector<Surroundings::Told> World::told(std::string_view thing_class, std::string_view id,
                                            const std::optional<base::Uuid>&) const {
  const auto found = used.find(std::string(thing_class) + "/" + std::string(id));
  return found == used.end() ? std::vector<Told>() : found->second;
}

base::CivilDate World::day_of(base::Instant moment) const {
  return base::Zone::find("UTC")->date_of(moment);
}

Surroundings::MonthStanding World::month(base::CivilMonth month,
                                         const std::optional<base::Uuid>& /*without*/) const {
  const auto utc = base::Zone::find("UTC");
  return {utc->start_of(base::next_month(month)),
          std::count(closed.begin(), closed.end(), base::format_month(month)) > 0,
          kNothing,
          {2026, 6},
          12};
}

std::optional<std::string> World::digest_at(base::CivilMonth /*month*/,
                                            std::uint64_t book_size) const {
  if (book_size > 12) return std::nullopt;
  return book_size < 10 ? std::string(64, '1') : kNothing;
}

std::optional<Surroundings::Log> World::log(std::string_view container,
                                            const std::optional<base::Uuid>&) const {
  const auto found = logs.find(std::string(container));
  return found == logs.end() ? std::nullopt : std::optional(found->second);
}

std::optional<Thing> World::thing(std::string_view thing_class, std::string_view id) const {
  const auto found = things.find(std::string(thing_class) + "/" + std::string(id));
  return found == things.end() ? std::nullopt : std::optional(found->second);
}

std::optional<Surroundings::Target> World::target(const base::Uuid& id) const {
  const auto found = targets.find(base::format_uuid(id));
  return found == targets.end() ? std::nullopt : std::optional(found->second);
}

std::string World::record(const std::string& submission) {
  const entries::Content content = accept(submission, *this);
  std::string id = base::format_uuid(content.id);
  targets[id] = {content, content.occurred_at.instant, false, false, true};
  return id;
}

base::Json json(const std::string& text) {
  auto parsed = base::parse_json(text);
  if (!parsed) {
    ADD_FAILURE() << "test text is no JSON: " << parsed.error().detail << "\n" << text;
    return nullptr;
  }
  return *parsed;
}

std::string submit(const std::string& kind, const std::string& fields, const std::string& more) {
  return R"({"id":")" + std::string(kId) + R"(","kind":")" + kind +
         R"(","occurred_at":"2026-11-25T09:33:56+01:00","fields":)" + fields + more + "}";
}

std::string drained(const std::string& volume_ml, const std::string& more) {
  return submit("oil-drained", R"({"container":"w1","volume_ml":)" + volume_ml + "}", more);
}

std::string drained_and(const std::string& fields, const std::string& more) {
  return submit("oil-drained", R"({"container":"w1","volume_ml":62)" + fields + "}", more);
}

std::string correct(const std::string& fields, const std::string& more) {
  return R"({"id":")" + std::string(kOtherId) +
         R"(","kind":"correction","occurred_at":"2026-11-25T09:40:00+01:00","corrects":")" + kId +
         R"(","reason":"read wrongly","fields":)" + fields + more + "}";
}

std::vector<std::string> refusals(const std::string& submission, const World& world) {
  std::vector<std::string> lines;
  const auto result = validate(real_catalog(), json(submission), world);
  if (result) return lines;
  for (const entries::Refusal& refusal : result.error()) {
    lines.push_back(refusal.pointer + " " + std::string(entries::refusal_key(refusal.code)));
  }
  return lines;
}

entries::Content accept(const std::string& submission, const World& world) {
  const auto result = validate(real_catalog(), json(submission), world);
  if (result) return result->content;
  for (const std::string& line : refusals(submission, world)) ADD_FAILURE() << line;
  ADD_FAILURE() << "refused: " << submission;
  return {};
}

std::string value_of(const entries::Content& content, const std::string& field) {
  const base::Json fields = entries::fields_json(content.fields);
  const base::Json* value = fields.find(field);
  return value == nullptr ? "" : base::write_json(*value);
}

}  // namespace benchwarden::forms
