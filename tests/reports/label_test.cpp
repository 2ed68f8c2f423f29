#include "reports/label.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "reports/fixture.h"
#include "reports/label_document.h"

namespace benchwarden::reports {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

entries::Field pictograms(const std::vector<std::string>& codes) {
  entries::List list;
  for (const std::string& code : codes) list.rows.push_back({{"pictogram", entries::Code{code}}});
  return {"pictograms", list};
}

/// workshop_book with what labels are made of.
BookUnderTest labelled_book() {
  BookUnderTest book = workshop_book();
  book.put("workshop", "site", {text("emergency_phone", "112")});
  book.put("stream", "oil",
           {text("keep_apart_from", "solvent"), pictograms({"ghs08", "ghs09", "ghs08"}),
            text("pictograms_source", "data sheet of 2025-03-01"), code("waste_type", "used-oil")});
  book.put("container", "bin", {code("emptied_daily", "yes")});
  book.put("tool", "r1", {text("name", "Regulator R1"), text("serial_number", "S-1")});
  return book;
}

LabelThing thing_of(const BookUnderTest& book, const std::string& thing_class,
                    const std::string& id) {
  const Basis basis = basis_at("2026-11-05T09:00:00+01:00");
  const auto thing = label_thing(book.state(), {thing_class, id}, basis,
                                 tallies::levels(book.state(), base::Instant{basis.as_of.ms + 1}));
  EXPECT_TRUE(thing.has_value());
  return thing.value_or(LabelThing{});
}

LabelFigures figures_with(const BookUnderTest& book, LabelThing thing) {
  return label_figures(book.state(), basis_at("2026-11-05T09:00:00+01:00"), {}, {std::move(thing)});
}

std::string json_with(const BookUnderTest& book, LabelThing thing) {
  const LabelFigures figures = figures_with(book, std::move(thing));
  return base::write_json(label_json(figures, label_document(figures, project_data())));
}

document::Label label_with(const BookUnderTest& book, LabelThing thing) {
  const document::Document document =
      label_document(figures_with(book, std::move(thing)), project_data());
  EXPECT_EQ(document.form, document::Form::kLabels);
  return blocks_of<document::Label>(document).at(0);
}

document::Label label_of(const BookUnderTest& book, const std::string& thing_class,
                         const std::string& id) {
  return label_with(book, thing_of(book, thing_class, id));
}

std::string fact(const document::Label& label, const std::string& name) {
  for (const document::LabelFact& one : label.facts) {
    if (one.name == name) return one.value;
  }
  return "none";
}

TEST(Label, OfAContainerBeginsWithItsStreamWhereNoPackAsksForWords) {
  const document::Label label = label_of(labelled_book(), "container", "w1");
  EXPECT_EQ(label.words, "Used damper oil");
  EXPECT_EQ(label.name, "Oil drum");
  EXPECT_EQ(label.id, "w1");
  EXPECT_EQ(label.code, "container/w1");
  EXPECT_THAT(label.foot, ElementsAre("Saltmarsh Damper Works", "Emergency 112"));
  EXPECT_THAT(label.warnings, ElementsAre("Keep apart from solvent"));
  EXPECT_EQ(fact(label, "low_code"), "13 01 10*");
  EXPECT_EQ(fact(label, "capacity_l"), "205\u00A0L");
}

TEST(Label, OfAContainerBeginsWithTheWordsThatAreAskedFor) {
  const BookUnderTest book = labelled_book();
  LabelThing thing = thing_of(book, "container", "w1");
  findings::Authority authority;
  authority.rule = "us.oil.label";
  authority.citation = "40 CFR 279.22(c)";
  thing.words = {{"Used Oil", authority}, {"Hazardous Waste", authority}};
  const document::Label label = label_with(book, thing);
  EXPECT_EQ(label.words, "Used Oil\nHazardous Waste");
  EXPECT_EQ(label.name, "Used damper oil");
  EXPECT_THAT(label.foot, Contains("Oil drum"));
  EXPECT_THAT(label.if_room,
              Contains("Words by 40 CFR 279.22(c) (from memory, not read in the text)"));
  EXPECT_THAT(json_with(book, thing),
              HasSubstr(R"("words":[{"words":"Used Oil","rule":"us.oil.label")"));
}

TEST(Label, TellsWhenAccumulationBeganOrLeavesALineForIt) {
  BookUnderTest book = labelled_book();
  EXPECT_EQ(fact(label_of(book, "container", "w1"), "accumulation_start"), "");
  book.drain("w1", 100'000, "2026-10-03T23:30:00+02:00");
  book.drain("w1", 100'000, "2026-10-20T09:00:00+02:00");
  const document::Label label = label_of(book, "container", "w1");
  EXPECT_EQ(fact(label, "accumulation_start"), "3 October 2026");
  EXPECT_THAT(json_with(book, thing_of(book, "container", "w1")),
              HasSubstr(R"("accumulation_start":"2026-10-03")"));
}

TEST(Label, HasPictogramsOnceEachAndOnlyWithTheirDataSheet) {
  BookUnderTest book = labelled_book();
  const document::Label label = label_of(book, "container", "w1");
  ASSERT_EQ(label.pictograms.size(), 2U);
  EXPECT_EQ(label.pictograms[1].symbol, "ghs09");
  EXPECT_EQ(label.pictograms_source, "Pictograms from data sheet of 2025-03-01");
  ASSERT_TRUE(label.least.has_value());
  EXPECT_EQ(label.least->width_mm, 105);

  book.put("stream", "rags", {pictograms({"ghs02"})});
  const document::Label unsourced = label_of(book, "container", "drum");
  EXPECT_THAT(unsourced.pictograms, IsEmpty());
  EXPECT_THAT(unsourced.remarks, ElementsAre(HasSubstr("without the data sheet")));
}

TEST(Label, OfAWorkingBinSaysThatItIsOneAndHasNoAccumulationStart) {
  const document::Label label = label_of(labelled_book(), "container", "bin");
  EXPECT_EQ(fact(label, "accumulation_start"), "none");
  EXPECT_THAT(label.warnings, ElementsAre(HasSubstr("Working bin"), HasSubstr("each working day")));
}

TEST(Label, OfAToolHasItsNextDueDateAndByWhichRule) {
  const BookUnderTest book = labelled_book();
  LabelThing thing = thing_of(book, "tool", "r1");
  EXPECT_THAT(label_with(book, thing).remarks,
              ElementsAre(HasSubstr("No due date follows from the rules in force as of")));
  thing.due = NextDue{{2026, 12, 21}, "Regulator R1: due by 2026-12-21.", "our rule", {}};
  const document::Label label = label_with(book, thing);
  EXPECT_EQ(label.words, "Regulator R1");
  EXPECT_EQ(fact(label, "serial_number"), "S-1");
  EXPECT_EQ(fact(label, "next_due"), "21 December 2026");
  EXPECT_THAT(label.remarks, ElementsAre("Due date as of 5 November 2026, see the app.",
                                         "Regulator R1: due by 2026-12-21. By our rule."));
}

TEST(Label, OfAWithdrawnOrRetiredThingSaysSoFirst) {
  const BookUnderTest book = labelled_book();
  LabelThing thing = thing_of(book, "tool", "r1");
  thing.in_service = false;
  EXPECT_EQ(label_with(book, thing).words, "Withdrawn: do not use");
  EXPECT_EQ(label_with(book, thing).name, "Regulator R1");
  thing.retired = true;
  EXPECT_EQ(label_with(book, thing).words, "Retired: no longer in use");
}

TEST(Label, HasTheCautionsOfWhatIsInTheContainer) {
  const auto first = [](const std::string& caution) {
    return project_data().cautions.find(caution)->sentences.front();
  };
  EXPECT_THAT(label_of(labelled_book(), "container", "w1").if_room,
              ElementsAre(first("used-oil-skin")));
  EXPECT_THAT(label_of(labelled_book(), "tool", "r1").if_room,
              ElementsAre(first("high-pressure-gas")));
  BookUnderTest book = labelled_book();
  book.put("cylinder", "a1", {code("gas", "argon")});
  EXPECT_THAT(label_of(book, "cylinder", "a1").if_room,
              ElementsAre(first("inert-gas"), first("high-pressure-gas")));
  book.put("stream", "oil", {code("acute", "yes")});
  EXPECT_THAT(label_of(book, "container", "w1").if_room,
              ElementsAre(first("unnamed-content"), first("used-oil-skin")));
}

TEST(Label, LeavesALineForTheHazardsOfHazardousWasteWithoutPictograms) {
  BookUnderTest book = labelled_book();
  EXPECT_EQ(fact(label_of(book, "container", "w1"), "hazards"), "none");
  book.put("stream", "rags", {code("hazardous", "yes"), pictograms({"ghs02"})});
  EXPECT_EQ(fact(label_of(book, "container", "drum"), "hazards"), "") << "of no data sheet";
  EXPECT_THAT(json_with(book, thing_of(book, "container", "drum")),
              HasSubstr(R"("hazards_by_hand":true)"));
  book.put("stream", "rags", {code("hazardous", "no")});
  EXPECT_EQ(fact(label_of(book, "container", "drum"), "hazards"), "none");
}

TEST(Label, OfHazardousWasteHasTheCodeAsReportsPrintIt) {
  BookUnderTest book = labelled_book();
  const document::Label marked = label_of(book, "container", "w1");
  EXPECT_EQ(fact(marked, "low_code"), "13 01 10*");
  EXPECT_EQ(marked.facts.front().raw, "13 01 10") << "as entered, for machines";
  book.put("stream", "oil", {code("hazardous", "no")});
  EXPECT_EQ(fact(label_of(book, "container", "w1"), "low_code"), "13 01 10");
}

TEST(Label, OfADayThatIsPastSaysThatItWasDue) {
  const BookUnderTest book = labelled_book();
  LabelThing thing = thing_of(book, "tool", "r1");
  thing.due = NextDue{{2026, 11, 4}, "Regulator R1: due by 2026-11-04.", "our rule", {}};
  const document::Label label = label_with(book, thing);
  EXPECT_EQ(fact(label, "was_due"), "4 November 2026");
  EXPECT_EQ(label.facts.back().label, "Was due");
  EXPECT_THAT(json_with(book, thing), HasSubstr(R"("day":"2026-11-04","past":true)"));
  thing.due->day = {2026, 11, 5};
  EXPECT_EQ(fact(label_with(book, thing), "next_due"), "5 November 2026") << "in time on the day";
}

TEST(Label, OfARetiredContainerLeadsWithThatAndItsDay) {
  const BookUnderTest book = labelled_book();
  LabelThing thing = thing_of(book, "container", "w1");
  thing.words = {{"Used Oil", {}}};
  thing.retired = true;
  thing.retired_on = base::CivilDate{2026, 11, 3};
  const document::Label label = label_with(book, thing);
  EXPECT_EQ(label.words, "Retired on 3 November 2026: no longer in use");
  EXPECT_EQ(label.name, "Used damper oil");
  EXPECT_EQ(fact(label, "accumulation_start"), "none");
  EXPECT_THAT(label.if_room, Not(Contains(HasSubstr("Words by"))));
}

TEST(Label, TellsNoAccumulationStartWhereNoneIsAskedFor) {
  const BookUnderTest book = labelled_book();
  LabelThing thing = thing_of(book, "container", "w1");
  thing.tells_start = false;
  const document::Label label = label_with(book, thing);
  EXPECT_EQ(fact(label, "accumulation_start"), "none");
  EXPECT_THAT(label.remarks, Contains(HasSubstr("write the day on by hand")));
}

TEST(Label, NeverJudges) {
  const BookUnderTest book = labelled_book();
  for (const char* id : {"w1", "bin", "drum"}) {
    const document::Label label = label_of(book, "container", id);
    for (const auto* lines : {&label.warnings, &label.remarks, &label.foot}) {
      for (const std::string& line : *lines) {
        EXPECT_THAT(line, Not(HasSubstr("compliant")));
        EXPECT_THAT(line, Not(HasSubstr("safe to")));
      }
    }
  }
}

TEST(Label, IsOfNothingThatTheRegisterDoesNotHold) {
  EXPECT_FALSE(label_thing(labelled_book().state(), {"container", "w9"},
                           basis_at("2026-11-05T09:00:00+01:00"), {}));
}

// Regulation (EC) No 1272/2008, Annex I, Table 1.3, at both ends of each of its rows.
TEST(LabelSizes, AreThoseOfTheTableByCapacity) {
  const auto size = [](std::int64_t millilitres) {
    const document::LabelSize& found = project_data().label_sizes.of(millilitres);
    return std::to_string(found.width_mm) + "x" + std::to_string(found.height_mm) + " " +
           std::to_string(found.pictogram_um);
  };
  for (const std::int64_t most : {500, 3'000}) EXPECT_EQ(size(most), "52x74 10000");
  for (const std::int64_t some : {3'001, 50'000}) EXPECT_EQ(size(some), "74x105 23000");
  for (const std::int64_t more : {50'001, 500'000}) EXPECT_EQ(size(more), "105x148 32000");
  EXPECT_EQ(size(500'001), "148x210 46000");
  EXPECT_EQ(project_data().label_sizes.of(501).x_height_um, 1'400);
}

std::string size_faults(const std::string& toml) {
  const auto sizes = LabelSizes::load({{"reports/layout/label_sizes.toml", toml}});
  return sizes ? "" : base::format_faults(sizes.error());
}

TEST(LabelSizes, AreRefusedOutOfOrderOrWithoutAnEnd) {
  const auto step = [](const std::string& up_to) {
    return "[[sizes]]\n" + up_to +
           "width_mm = 52\nheight_mm = 74\npictogram_mm = \"10\"\nx_height_mm = \"1.2\"\n"
           "source = \"a table\"\n";
  };
  EXPECT_EQ(size_faults(step("up_to_l = \"3\"\n") + step("")), "");
  EXPECT_THAT(size_faults(step("up_to_l = \"3\"\n")), HasSubstr("must have no up_to_l"));
  EXPECT_THAT(size_faults(step("up_to_l = \"3\"\n") + step("up_to_l = \"2\"\n") + step("")),
              HasSubstr("in order of up_to_l"));
  EXPECT_THAT(size_faults("[[sizes]]\nwidth_mm = 0\nheight_mm = 74\npictogram_mm = \"x\"\n"
                          "x_height_mm = \"1.2\"\nsource = \"a table\"\n"),
              testing::AllOf(HasSubstr("width_mm: a whole number from 1 to 300"),
                             HasSubstr("pictogram_mm: a number in quotes")));
  EXPECT_THAT(LabelSizes::load({}).error().front().reason, HasSubstr("is missing"));
}

}  // namespace
}  // namespace benchwarden::reports
