// The figures are worked out by hand from the register of TestWorkshop: 205 L at 90 % is a working
// limit of 184.5 L; used oil has 870 kg/m³.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/test_workshop.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

TEST(Levels, OfLiquidsStandInVolumeAndInMassByTheirDensity) {
  const TestWorkshop workshop;
  for (int i = 0; i < 10; ++i) workshop.enter(drain("w1", "4000", "2026-11-10T09:00:00Z"));
  const base::Json level = workshop.level("w1");
  EXPECT_EQ(value_at(level, "volume_ml"), "40000");
  EXPECT_EQ(value_at(level, "mass_kg"), "34.8");  // 40 L · 870 kg/m³
  EXPECT_EQ(value_at(level, "working_limit_ml"), "184500");
  EXPECT_EQ(value_at(level, "working_limit_kg"), "null");
  EXPECT_EQ(value_at(level, "working_limit_used_percent"), "21.7");  // 40 of 184.5 L: 21.68 %
  EXPECT_EQ(value_at(level, "oldest_content_at"), R"("2026-11-10T10:00:00+01:00")");
  EXPECT_EQ(value_at(level, "stream/low_code"), R"("13 01 10")");
  EXPECT_EQ(value_at(level, "stream/counted_by"), R"("volume")");
}

TEST(Levels, OfSolidsStandInMassAlone) {
  const TestWorkshop workshop;
  workshop.enter(tell("rag-bin", R"({"container":"bin","bin_act":"emptied","emptied_into":"drum",
                                     "mass_kg":3.25})"));
  const base::Json level = workshop.level("drum");
  EXPECT_EQ(value_at(level, "volume_ml"), "null");
  EXPECT_EQ(value_at(level, "mass_kg"), "3.25");
  EXPECT_EQ(value_at(level, "working_limit_ml"), "null");
  EXPECT_EQ(value_at(level, "working_limit_kg"), "null") << "rags have no density";
  EXPECT_EQ(value_at(level, "working_limit_used_percent"), "null");
  EXPECT_EQ(value_at(level, "stream/counted_by"), R"("mass")");
}

TEST(Levels, ShowTheLastReadingBesideTheLogOfThatMoment) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1000", "2026-11-10T09:00:00Z"));
  workshop.enter(tell("level-reading",
                      R"({"container":"w1","reading_method":"dip","volume_ml":1200})",
                      "2026-11-11T09:00:00Z"));
  workshop.enter(drain("w1", "500", "2026-11-12T09:00:00Z"));
  const base::Json level = workshop.level("w1");
  EXPECT_EQ(value_at(level, "volume_ml"), "1500") << "a reading does not change the log";
  EXPECT_EQ(value_at(level, "last_reading"),
            R"({"at":"2026-11-11T10:00:00+01:00","reading_ml":1200,"logged_ml":1000,"seq":13})");
}

TEST(Levels, OfAnEmptyContainerSayThatThereIsNothing) {
  const TestWorkshop workshop;
  const base::Json level = workshop.level("w2");
  EXPECT_EQ(value_at(level, "volume_ml"), "0");
  EXPECT_EQ(value_at(level, "working_limit_used_percent"), "0");
  EXPECT_EQ(value_at(level, "oldest_content_at"), "null");
  EXPECT_EQ(value_at(level, "last_reading"), "null");
  EXPECT_EQ(value_at(level, "sealed"), "false");
  EXPECT_EQ(value_at(level, "retired"), "false");
}

TEST(Levels, NameTheMomentAndTheSizeOfTheBookTheyStandOn) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1"));
  const auto now = show_levels(workshop.ports(), std::nullopt);
  EXPECT_EQ(value_at(*now, "as_of"), R"("2026-11-20T13:00:00+01:00")");
  EXPECT_EQ(value_at(*now, "book_size"), "12");
  const auto then = show_levels(workshop.ports(), Viewpoint{11, at("2026-11-19T00:00:00Z")});
  EXPECT_EQ(value_at(*then, "as_of"), R"("2026-11-19T01:00:00+01:00")");
  EXPECT_EQ(value_at(*then, "book_size"), "11");
}

TEST(Levels, CountWhatATabletWithAFastClockRecordedJustNow) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "25", "2026-11-20T12:05:00Z"));
  EXPECT_EQ(workshop.volume_ml("w1"), "25");
}

}  // namespace
}  // namespace benchwarden::workshop
