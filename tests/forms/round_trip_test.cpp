#include <gtest/gtest.h>

#include <set>

#include "entries/leaf.h"
#include "world.h"

namespace benchwarden::forms {
namespace {

std::string name_of(const testing::TestParamInfo<Sample>& info) {
  std::string name = info.param.name;
  for (char& c : name) c = c == '-' ? '_' : c;
  return name;
}

class EverySample : public testing::TestWithParam<Sample> {
 protected:
  EverySample() { world_.role = GetParam().role; }
  World world_;
};
INSTANTIATE_TEST_SUITE_P(Samples, EverySample, testing::ValuesIn(samples()), name_of);

TEST_P(EverySample, IsAcceptedAndSaysTheSameWhenSentAgain) {
  const auto first = validate(real_catalog(), json(GetParam().submission), world_);
  ASSERT_TRUE(first.ok()) << testing::PrintToString(refusals(GetParam().submission, world_));
  const auto second = validate(real_catalog(), resubmission(*first), world_);
  ASSERT_TRUE(second.ok());
  EXPECT_EQ(second->content, first->content);
}

TEST_P(EverySample, ComesBackFromItsLeafAsItWas) {
  entries::Entry entry;
  entry.content = accept(GetParam().submission, world_);
  entry.signature.person = "p1";
  entry.seq = 7;
  entry.recorded_at = world_.now();
  const std::string leaf = entries::write_leaf(entry);
  const auto read = entries::read_leaf(leaf, real_catalog());
  ASSERT_TRUE(read.ok()) << read.error().detail;
  EXPECT_EQ(read->content, entry.content);
}

TEST_P(EverySample, HoldsItsFieldsInTheOrderOfTheirNames) {
  const entries::Content content = accept(GetParam().submission, world_);
  for (std::size_t i = 1; i < content.fields.size(); ++i) {
    EXPECT_LT(content.fields[i - 1].name, content.fields[i].name);
  }
}

TEST_P(EverySample, MapsToItsEffectsAndSubjects) {
  const entries::Content content = accept(GetParam().submission, world_);
  EXPECT_FALSE(effects_of(real_catalog(), content).empty());
  static const std::set<std::string> kAboutNoThing{
      "access-change",     "access-day",           "backup-made", "end-accepted",
      "entries-confirmed", "finding-acknowledged", "hold",        "month-close",
      "report-issued",     "rules-adopted",        "walk-round"};
  const bool is_about_no_thing =
      kAboutNoThing.contains(content.kind) || GetParam().name == "finding-acted";
  EXPECT_EQ(subjects_of(real_catalog(), content).empty(), is_about_no_thing);
}

/// The submission with one field replaced.
base::Json with_field(const base::Json& submission, const std::string& field,
                      const base::Json& value) {
  base::Json changed = submission;
  for (auto& [member, fields] : *changed.object()) {
    if (member != "fields") continue;
    for (auto& [name, old] : *fields.object()) {
      if (name == field) old = value;
    }
  }
  return changed;
}

TEST_P(EverySample, TakesOrRefusesAnyOddValueInAnyField) {
  const std::vector<base::Json> odd{json("null"),
                                    json("true"),
                                    json("-1"),
                                    json("0"),
                                    json("1e3"),
                                    json("0.0001"),
                                    json("99999999999999"),
                                    json(R"("")"),
                                    json(R"("x")"),
                                    json(R"("\u0000")"),
                                    json("[]"),
                                    json("[{}]"),
                                    json("{}"),
                                    json(R"({"value":1,"unit":"psi"})"),
                                    json(R"([{"container":"w1","volume_ml":1}])"),
                                    json(R"("2026-02-28")")};
  const base::Json sample = json(GetParam().submission);
  for (const auto& [name, good] : *sample.find("fields")->object()) {
    for (const base::Json& value : odd) {
      const auto result = validate(real_catalog(), with_field(sample, name, value), world_);
      if (!result) {
        for (const entries::Refusal& refusal : result.error()) {
          EXPECT_TRUE(refusal.pointer.starts_with("/fields")) << refusal.pointer;
        }
        continue;
      }
      const auto again = validate(real_catalog(), resubmission(*result), world_);
      ASSERT_TRUE(again.ok()) << name << " = " << base::write_json(value);
      EXPECT_EQ(again->content, result->content);
      EXPECT_FALSE(effects_of(real_catalog(), result->content).empty());
    }
  }
}

TEST(Samples, CoverEveryKind) {
  std::set<std::string> kinds{"correction"};  // has its own tests: it needs a target
  for (const Sample& sample : samples())
    kinds.insert(*json(sample.submission).find("kind")->string());
  for (const Definition& definition : real_catalog().definitions()) {
    EXPECT_TRUE(kinds.contains(definition.kind)) << definition.kind;
  }
}

}  // namespace
}  // namespace benchwarden::forms
