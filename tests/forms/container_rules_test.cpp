#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// w1 and w2 hold oil, counted by volume; rag-drum holds rags, counted by mass, and rag-bin is the
/// working bin before it. Neither stream has a density.
class WithoutDensities : public World {
 public:
  WithoutDensities() {
    container("container/w1", "oil", "yes");
    container("container/w2", "oil", "yes");
    container("container/rag-drum", "rags", "yes");
    container("container/rag-bin", "rags", "no");
    things["stream/oil"].attributes = {{"counted_by", entries::Code{"volume"}}};
    things["stream/rags"].attributes = {{"counted_by", entries::Code{"mass"}}};
  }

 private:
  void container(const std::string& name, const char* stream, const char* counts) {
    things[name].attributes = {{"counts_waste", entries::Code{counts}},
                               {"stream", entries::Id{stream}}};
  }
};

std::string transfer(const std::string& fields) { return submit("transfer", fields); }

TEST(ContainerRules, NameAContainerOnce) {
  EXPECT_THAT(refusals(transfer(R"({"from_container":"w1","to_container":"w1"})"), World()),
              ElementsAre("/fields/to_container named_twice"));
  EXPECT_THAT(refusals(submit("rag-bin", R"({"container":"rag-bin","bin_act":"emptied",)"
                                         R"("emptied_into":"rag-bin","mass_kg":2})"),
                       World()),
              ElementsAre("/fields/emptied_into named_twice"));
}

TEST(ContainerRules, KeepCountedWasteOutOfWorkingBins) {
  const WithoutDensities world;
  EXPECT_THAT(
      refusals(transfer(R"({"from_container":"rag-drum","to_container":"rag-bin"})"), world),
      ElementsAre("/fields/to_container counted_already"));
  EXPECT_THAT(
      refusals(transfer(R"({"from_container":"rag-bin","to_container":"rag-drum"})"), world),
      IsEmpty());
}

TEST(ContainerRules, WantAnAmountThatTheStreamCanCount) {
  WithoutDensities world;
  const std::string oil_among_rags =
      submit("oil-drained", R"({"container":"rag-drum","volume_ml":60})");
  EXPECT_THAT(refusals(oil_among_rags, world), ElementsAre("/fields/container not_countable"));
  const std::string oil_by_mass =
      transfer(R"({"from_container":"w2","to_container":"w1","mass_kg":5})");
  EXPECT_THAT(refusals(oil_by_mass, world), ElementsAre("/fields/from_container not_countable",
                                                        "/fields/to_container not_countable"));

  world.things["stream/oil"].attributes.push_back(
      {"density_kg_m3",
       quantities::Quantity{base::Decimal{870'000}, quantities::find_unit("kg_m3")}});
  EXPECT_THAT(refusals(oil_by_mass, world), IsEmpty());
}

TEST(ContainerRules, KeepWasteStreamsApart) {
  WithoutDensities world;
  world.things["stream/solvent"].attributes = {{"counted_by", entries::Code{"volume"}},
                                               {"low_code", entries::Text{"14 06 03"}}};
  world.things["container/s1"].attributes = {{"counts_waste", entries::Code{"yes"}},
                                             {"stream", entries::Id{"solvent"}}};
  const std::string fields = R"({"from_container":"w1","to_container":"s1"})";
  EXPECT_THAT(refusals(transfer(fields), world),
              ElementsAre("/fields/to_container needs_confirmation"));
  EXPECT_THAT(refusals(submit("transfer", fields, R"(,"confirmed":["to_container"])"), world),
              IsEmpty());
  const std::string emptied = R"({"container":"rag-bin","bin_act":"emptied","mass_kg":2,)";
  EXPECT_THAT(refusals(submit("rag-bin", emptied + R"("emptied_into":"rag-drum"})"), world),
              IsEmpty());
  world.things["stream/solvent"].attributes[0] = {"counted_by", entries::Code{"mass"}};
  EXPECT_THAT(refusals(submit("rag-bin", emptied + R"("emptied_into":"s1"})"), world),
              ElementsAre("/fields/emptied_into needs_confirmation",
                          "/fields/emptied_into needs_confirmation"))
      << "its chapter, and another stream";
}

TEST(ContainerRules, WantOilAmongOtherWasteConfirmed) {
  WithoutDensities world;
  world.things["stream/oil"].attributes.push_back({"low_code", entries::Text{"13 01 10"}});
  EXPECT_THAT(refusals(submit("oil-drained", R"({"container":"w1","volume_ml":60})"), world),
              IsEmpty());
  world.record(submit("oil-drained", R"({"container":"w1","volume_ml":60})"));
  world.things["stream/oil"].attributes.back() = {"low_code", entries::Text{"14 06 03"}};
  const std::string fields = R"({"container":"w1","volume_ml":60})";
  const auto result = validate(real_catalog(), json(submit("oil-drained", fields)), world);
  ASSERT_FALSE(result.ok());
  const entries::Refusal& refusal = result.error().front();
  EXPECT_EQ(refusal.pointer, "/fields/container");
  EXPECT_EQ(refusal.code, entries::RefusalCode::kNeedsConfirmation);
  EXPECT_EQ(refusal.value, "14 06 03");
  EXPECT_EQ(refusal.accepted, "13");
  EXPECT_THAT(refusals(submit("oil-drained", fields, R"(,"confirmed":["container"])"), world),
              IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":61})"), world), IsEmpty());
}

std::string taken_loads(const std::string& loads) {
  return submit("collection", R"({"collection":"c7","stage":"taken","carrier":"c1",)"
                              R"("document_number":"D 1","loads":[)" +
                                  loads + "]}");
}

TEST(ContainerRules, HoldForEveryLoadOfACollection) {
  const WithoutDensities world;
  EXPECT_THAT(refusals(taken_loads(R"({"container":"rag-drum","volume_ml":5000})"), world),
              ElementsAre("/fields/loads/0/container not_countable"));
  EXPECT_THAT(refusals(taken_loads(R"({"container":"w1","volume_ml":5000},)"
                                   R"({"container":"w2","volume_ml":1},)"
                                   R"({"container":"w1","volume_ml":1})"),
                       world),
              ElementsAre("/fields/loads/2/container named_twice"));
  EXPECT_THAT(refusals(taken_loads(R"({"container":"w1","volume_ml":5000},)"
                                   R"({"container":"rag-drum","mass_kg":12})"),
                       world),
              IsEmpty());
}

}  // namespace
}  // namespace benchwarden::forms
