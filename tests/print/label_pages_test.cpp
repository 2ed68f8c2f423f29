#include "print/label_pages.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "print/label_sample.h"
#include "print/pictogram_rows.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::Not;

Mpt millimetres(Mpt whole) { return from_micrometres(1000 * whole); }

std::vector<Page> pages_of(const std::vector<document::Label>& given, Paper paper) {
  const auto pages = label_pages(labels(given), paper, sample_layout(), sample_metrics());
  if (!pages) {
    ADD_FAILURE() << pages.error().detail;
    return {};
  }
  return *pages;
}

std::string refusal_of(const document::Label& label, Paper paper) {
  const auto pages = label_pages(labels({label}), paper, sample_layout(), sample_metrics());
  return pages ? "" : pages.error().detail;
}

const TextDraw* find_text(const Page& page, const std::string& part) {
  for (const Draw& draw : page.draws) {
    const auto* text = std::get_if<TextDraw>(&draw);
    if (text != nullptr && text->text.find(part) != std::string::npos) return text;
  }
  return nullptr;
}

std::vector<AreaDraw> areas_in(const Page& page, document::Ink ink) {
  std::vector<AreaDraw> found;
  for (const Draw& draw : page.draws) {
    const auto* area = std::get_if<AreaDraw>(&draw);
    if (area != nullptr && area->ink == ink) found.push_back(*area);
  }
  return found;
}

struct Extent {
  Mpt left = INT64_MAX;
  Mpt top = INT64_MAX;
  Mpt right = INT64_MIN;
  Mpt bottom = INT64_MIN;
  void add(Mpt x, Mpt y) {
    left = std::min(left, x);
    right = std::max(right, x);
    top = std::min(top, y);
    bottom = std::max(bottom, y);
  }
};

Extent extent_of(const AreaDraw& area) {
  Extent extent;
  for (const auto& ring : area.rings) {
    for (const Point& point : ring) extent.add(point.x, point.y);
  }
  return extent;
}

/// Of everything on the page; of text its box from baseline to capitals.
Extent extent_of(const Page& page) {
  Extent extent;
  for (const Draw& draw : page.draws) {
    if (const auto* text = std::get_if<TextDraw>(&draw)) {
      const Mpt width = sample_metrics().width(text->text, text->size);
      extent.add(text->x, text->y - (text->turn == Turn::kNone ? text->size * 3 / 4 : 0));
      extent.add(text->x + (text->turn == Turn::kNone ? width : text->size * 3 / 4),
                 text->y + (text->turn == Turn::kNone ? text->size / 4 : width));
    } else if (const auto* area = std::get_if<AreaDraw>(&draw)) {
      const Extent own = extent_of(*area);
      extent.add(own.left, own.top);
      extent.add(own.right, own.bottom);
    } else if (const auto* line = std::get_if<LineDraw>(&draw)) {
      extent.add(line->x1, line->y1);
      extent.add(line->x2, line->y2);
    }
  }
  return extent;
}

TEST(LabelPages, HoldEverythingWithinTheirMargin) {
  const Mpt margin = sample_layout().label.margin - 1;
  for (const Paper paper : {Paper::kA6, Paper::kA7, Paper::kRoll62}) {
    const bool small = paper != Paper::kA6;
    for (const Page& page : pages_of({small ? tool_label() : drum_label()}, paper)) {
      const Extent extent = extent_of(page);
      EXPECT_GE(extent.left, margin);
      EXPECT_GE(extent.top, margin);
      EXPECT_LE(extent.right, size_of(paper).width - margin);
      EXPECT_LE(extent.bottom, page.paper_height - margin);
    }
  }
}

TEST(LabelPages, WrapWhatIsSaidBeforeALineToWriteOn) {
  document::Label label = tool_label();
  label.facts = {{"What it may do to who opens it, by the data sheet of its maker", "", "hazards"}};
  const Extent extent = extent_of(pages_of({label}, Paper::kA7).at(0));
  EXPECT_LE(extent.right, size_of(Paper::kA7).width - sample_layout().label.margin + 1);
}

TEST(LabelPages, PutTheRequiredWordsFirstAndLargest) {
  const Page page = pages_of({drum_label()}, Paper::kA6).at(0);
  const auto* first = std::get_if<TextDraw>(&page.draws.front());
  ASSERT_NE(first, nullptr);
  EXPECT_EQ(first->text, "Used Oil");
  for (const Draw& draw : page.draws) {
    const auto* text = std::get_if<TextDraw>(&draw);
    if (text == nullptr) continue;
    EXPECT_LE(text->size, first->size) << text->text;
  }
  EXPECT_GE(first->size, sample_metrics().size_for_cap_height(millimetres(5)));
}

TEST(LabelPages, KeepTheHeightOfLettersThatTheContainerAsksFor) {
  document::Label full = drum_label();
  full.warnings.emplace_back("Keep away from drains, and from anything hot");
  const Page page = pages_of({full}, Paper::kA6).at(0);
  const Mpt least = sample_metrics().size_for_x_height(millimetres(2));
  for (const Draw& draw : page.draws) {
    const auto* text = std::get_if<TextDraw>(&draw);
    if (text == nullptr) continue;
    EXPECT_GE(text->size, least) << text->text;
  }
}

TEST(LabelPages, DrawPictogramsAsLargeAsTheirTableAndTheirShareOfTheLabel) {
  for (const int side_mm : {23, 32}) {
    document::Label label = drum_label();
    label.least->pictogram_um = side_mm * 1000;
    label.pictograms.resize(1);
    const auto frames = areas_in(pages_of({label}, Paper::kA6).at(0), document::Ink::kRed);
    ASSERT_EQ(frames.size(), 1U);
    const Extent frame = extent_of(frames[0]);
    const double side = static_cast<double>(frame.right - frame.left) / std::sqrt(2.0);
    EXPECT_GE(side, static_cast<double>(millimetres(side_mm)) - 20);
    const double label_area = static_cast<double>(millimetres(105) * millimetres(148));
    EXPECT_GE(side * side, label_area / 15 * 0.999);
  }
}

TEST(LabelPages, MakeACodeOf25MillimetresOnA6AndModulesOfTwoPointsOnSmallerPaper) {
  const auto code_of = [](const Page& page) {
    return areas_in(page, document::Ink::kBlack).back();
  };
  const Extent large = extent_of(code_of(pages_of({drum_label()}, Paper::kA6).at(0)));
  EXPECT_GE(large.right - large.left, millimetres(25));
  const Extent small = extent_of(code_of(pages_of({tool_label()}, Paper::kA7).at(0)));
  EXPECT_GE(small.right - small.left, millimetres(18));
  document::Label long_id = tool_label();
  long_id.code = "container/" + std::string(40, 'x');
  const Extent wide = extent_of(code_of(pages_of({long_id}, Paper::kA6).at(0)));
  EXPECT_GE(wide.right - wide.left, 37 * points(2));  // version 5 of ISO/IEC 18004
}

TEST(LabelPages, LeaveAQuietZoneOfFourModulesAroundTheCode) {
  for (const Paper paper : {Paper::kA6, Paper::kA7, Paper::kRoll62}) {
    const Page page = pages_of({tool_label()}, paper).at(0);
    const AreaDraw code = areas_in(page, document::Ink::kBlack).back();
    const Extent extent = extent_of(code);
    const Mpt quiet = 4 * (code.rings[0][2].y - code.rings[0][0].y);
    EXPECT_GE(extent.left, quiet);
    EXPECT_LE(extent.bottom, page.paper_height - quiet);
    for (const Draw& draw : page.draws) {
      const auto* text = std::get_if<TextDraw>(&draw);
      if (text == nullptr) continue;
      const bool above = text->y <= extent.top - quiet;
      EXPECT_TRUE(above || text->x >= extent.right + quiet) << text->text;
    }
  }
}

TEST(LabelPages, RefuseASmallerPaperThanTheTableWherePictogramsAreOnIt) {
  EXPECT_EQ(refusal_of(drum_label(), Paper::kA7),
            "the label of Container w1 does not fit on 'a7': it bears pictograms and needs at "
            "least 105 x 148 mm (Table 1.3); accepted: a4, letter, a6");
  document::Label bare = drum_label();
  bare.pictograms.clear();
  bare.pictograms_source.clear();
  EXPECT_EQ(refusal_of(bare, Paper::kRoll62), "");
}

TEST(LabelPages, RefuseWhatIsTooLongAndSayWhatAndWhichPaperWouldDo) {
  document::Label label = drum_label();
  label.warnings = {};
  for (int i = 0; i < 6; ++i) label.warnings.push_back("Keep apart from solvents and acids");
  EXPECT_THAT(refusal_of(label, Paper::kA6),
              testing::AllOf(HasSubstr("of height at the smallest type allowed, where there are "
                                       "148 mm; the longest part is its pictograms"),
                             HasSubstr("accepted: a4, letter")));
  label.warnings = {std::string(4000, 'x')};
  EXPECT_THAT(refusal_of(label, Paper::kA4),
              testing::AllOf(HasSubstr("the longest part is its warnings"),
                             HasSubstr("accepted: shorter texts")));
}

TEST(LabelPages, NeverBreakAWordOfThoseThatArePrescribed) {
  document::Label label = tool_label();
  label.words = "Excluded Solvent-Contaminated Wipes";
  EXPECT_THAT(refusal_of(label, Paper::kA7),
              HasSubstr("too wide to be read from 2 m on this paper; accepted: a4, letter, a6"));
  const Page page = pages_of({label}, Paper::kA6).at(0);
  EXPECT_NE(find_text(page, "Solvent-Contaminated"), nullptr);
}

TEST(LabelPages, LeaveOutFirstWhatMayBeLeftOut) {
  document::Label label = tool_label();
  EXPECT_NE(find_text(pages_of({label}, Paper::kA6).at(0), "Open cylinder valves"), nullptr);
  label.if_room = {std::string(3000, 'y')};
  const Page page = pages_of({label}, Paper::kA6).at(0);
  EXPECT_EQ(find_text(page, "yyy"), nullptr);
  EXPECT_NE(find_text(page, "Due date as of"), nullptr);
}

TEST(LabelPages, PrintOfWhatMayBeLeftOutAsMuchAsFitsAndTellTheRest) {
  document::Label label = tool_label();
  label.if_room = {"Open cylinder valves slowly.", std::string(3000, 'y'), "Point it at nobody."};
  const Page page = pages_of({label}, Paper::kA6).at(0);
  EXPECT_NE(find_text(page, "Open cylinder valves"), nullptr);
  EXPECT_NE(find_text(page, "Point it at nobody"), nullptr);
  EXPECT_EQ(find_text(page, "yyy"), nullptr);
  document::Document document = labels({label});
  tell_left_out(document, Paper::kA6, sample_layout(), sample_metrics());
  const auto& told = std::get<document::Label>(document.sections[0].blocks[0]);
  EXPECT_THAT(told.left_out, testing::ElementsAre(label.if_room[1]));
  EXPECT_THAT(told.if_room, testing::SizeIs(3));
}

TEST(LabelPages, LeaveNothingOutOnARoll) {
  document::Document document = labels({tool_label()});
  tell_left_out(document, Paper::kRoll62, sample_layout(), sample_metrics());
  EXPECT_THAT(std::get<document::Label>(document.sections[0].blocks[0]).left_out,
              testing::IsEmpty());
  EXPECT_NE(find_text(pages_of({tool_label()}, Paper::kRoll62).at(0), "Open cylinder"), nullptr);
}

TEST(LabelPages, MakeARollAsLongAsNeeded) {
  document::Label label = tool_label();
  const Mpt before = pages_of({label}, Paper::kRoll62).at(0).paper_height;
  label.remarks.emplace_back("One more remark, which takes two lines or more of this paper.");
  EXPECT_GT(pages_of({label}, Paper::kRoll62).at(0).paper_height, before);
}

TEST(LabelPages, FillSheetsBySizeTheSmallestFirst) {
  const auto pages = pages_of({drum_label(), tool_label(), tool_label(), tool_label(), tool_label(),
                               tool_label(), drum_label(), drum_label()},
                              Paper::kA4);
  ASSERT_EQ(pages.size(), 4U);  // 4 + 1 small ones, 2 + 1 large ones
  EXPECT_EQ(pages[0].bookmarks.size(), 4U);
  EXPECT_EQ(pages[1].bookmarks.size(), 1U);
  EXPECT_EQ(pages[2].bookmarks.size(), 2U);
  EXPECT_EQ(pages[3].bookmarks.size(), 1U);
  EXPECT_EQ(pages[2].bookmarks[0].heading.text, "Container w1");
  EXPECT_EQ(find_text(pages[2], "Used Oil")->turn, Turn::kRight);
}

TEST(LabelPages, StayWithinTheMarginsOfBothPapersOnASheet) {
  for (const Paper paper : {Paper::kA4, Paper::kLetter}) {
    for (const Page& page : pages_of({drum_label(), drum_label(), tool_label()}, paper)) {
      const Extent extent = extent_of(page);
      EXPECT_GE(extent.left, millimetres(20));
      EXPECT_GE(extent.top, millimetres(15));
      EXPECT_LE(extent.right, millimetres(195));
      EXPECT_LE(extent.bottom, points(792) - millimetres(15));
    }
  }
}

TEST(LabelPages, TurnEveryDrawOfALabelAlike) {
  const Page upright = pages_of({drum_label()}, Paper::kA6).at(0);
  const Page sheet = pages_of({drum_label()}, Paper::kA4).at(0);
  const auto* words = find_text(sheet, "Used Oil");
  const auto* words_before = find_text(upright, "Used Oil");
  const Mpt dx = words->x - (millimetres(148) - words_before->y);
  const Mpt dy = words->y - words_before->x;
  const auto code = areas_in(upright, document::Ink::kBlack).back();
  const auto turned_code = areas_in(sheet, document::Ink::kBlack).back();
  ASSERT_EQ(code.rings.size(), turned_code.rings.size());
  for (std::size_t i = 0; i < code.rings.size(); ++i) {
    EXPECT_EQ(turned_code.rings[i][0].x, millimetres(148) - code.rings[i][0].y + dx);
    EXPECT_EQ(turned_code.rings[i][0].y, code.rings[i][0].x + dy);
  }
}

TEST(LabelPages, SayOnEachLabelThatItIsNotForIssueAndWhichSignsAreMissing) {
  document::Document document = labels({tool_label()});
  document.standing = document::Standing::kNotForIssue;
  std::get<document::Label>(document.sections[0].blocks[0]).name = "漢字";
  const auto pages = label_pages(document, Paper::kA6, sample_layout(), sample_metrics());
  ASSERT_TRUE(pages);
  EXPECT_NE(find_text(pages->at(0), "NOT FOR ISSUE"), nullptr);
  EXPECT_NE(find_text(pages->at(0), "signs missing: 2"), nullptr);
}

TEST(LabelPages, AreRefusedWithoutAnyLabel) {
  const auto pages = label_pages(labels({}), Paper::kA6, sample_layout(), sample_metrics());
  ASSERT_FALSE(pages);
  EXPECT_EQ(pages.error().code, base::ErrorCode::kInternal);
}

bool overlap(Point a, Point b, Mpt diagonal) {
  return std::abs(a.x - b.x) + std::abs(a.y - b.y) < diagonal;
}

TEST(PictogramRows, NeverOverlapAndStayWithinTheirWidth) {
  const Mpt side = millimetres(23);
  for (std::size_t count = 1; count <= 9; ++count) {
    for (const Mpt width : {millimetres(34), millimetres(66), millimetres(97), millimetres(140)}) {
      const PictogramRows rows = arrange_pictograms(count, width, side);
      ASSERT_EQ(rows.places.size(), count);
      for (std::size_t i = 0; i < count; ++i) {
        EXPECT_GE(rows.places[i].x, -1);
        EXPECT_LE(rows.places[i].x + diagonal_of(side), width + 1);
        EXPECT_LE(rows.places[i].y + diagonal_of(side), rows.height);
        for (std::size_t j = 0; j < i; ++j) {
          EXPECT_FALSE(overlap(rows.places[i], rows.places[j], diagonal_of(side)))
              << count << " on " << width;
        }
      }
    }
  }
}

TEST(PictogramRows, StandSideBySideWhereThereIsRoomElseReachIntoEachOther) {
  const Mpt side = millimetres(23);
  EXPECT_EQ(arrange_pictograms(2, millimetres(97), side).height, diagonal_of(side));
  const PictogramRows four = arrange_pictograms(4, millimetres(97), side);
  EXPECT_GT(four.height, diagonal_of(side));
  EXPECT_LT(four.height, 2 * diagonal_of(side));
  EXPECT_EQ(arrange_pictograms(0, millimetres(97), side).height, 0);
}

}  // namespace
}  // namespace benchwarden::print
