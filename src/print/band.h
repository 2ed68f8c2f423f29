#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "document/headings.h"
#include "document/pictograms.h"
#include "print/length.h"

namespace benchwarden::print {

enum class Weight { kNormal, kStrong };
/// By a quarter: kLeft is read upwards from its left end, kRight runs from the top down.
enum class Turn { kNone, kLeft, kRight };

/// Printable text, its baseline and left end given from the top left of whatever holds it.
struct TextDraw {
  Mpt x = 0;
  Mpt y = 0;
  Mpt size = 0;
  Weight weight = Weight::kNormal;
  std::string text;
  Turn turn = Turn::kNone;
};

/// A grey area, or at 100 % a black one.
struct FillDraw {
  Mpt x = 0;
  Mpt y = 0;
  Mpt width = 0;
  Mpt height = 0;
  int grey_percent = 0;
};

struct LineDraw {
  Mpt x1 = 0;
  Mpt y1 = 0;
  Mpt x2 = 0;
  Mpt y2 = 0;
  Mpt thickness = 0;
  int grey_percent = 100;  ///< 100 is black
};

/// A place of the document; pages count from 0.
struct Spot {
  std::size_t page = 0;
  Mpt y = 0;
};

/// An area that leads to an anchor.
struct LinkDraw {
  Mpt x = 0;
  Mpt y = 0;
  Mpt width = 0;
  Mpt height = 0;
  std::string anchor;
  bool underlined = true;
  std::optional<Spot> target = std::nullopt;  ///< known once the document is cut into pages
};

/// Stands for the number of the page an anchor is on, with dots from `x` up to it.
struct PageNumberDraw {
  Mpt x = 0;
  Mpt right = 0;
  Mpt y = 0;  ///< of the baseline
  Mpt size = 0;
  std::string anchor;
};

struct Point {
  Mpt x = 0;
  Mpt y = 0;
};

/// What an odd number of closed lines surrounds.
struct AreaDraw {
  document::Ink ink = document::Ink::kBlack;
  std::vector<std::vector<Point>> rings;
};

using Draw = std::variant<TextDraw, FillDraw, LineDraw, AreaDraw, LinkDraw, PageNumberDraw>;

enum class Keep { kFree, kWithNext };

/// A strip over the whole width of the text area that is never cut by a page break (but when it
/// alone is taller than a page). Draws are relative to its top left.
struct Band {
  Mpt height = 0;
  Mpt space_before = 0;  ///< left out at the top of a page
  Mpt space_after = 0;   ///< the larger of this and the next band's space_before counts
  Keep keep = Keep::kFree;
  std::vector<Draw> draws = {};
  std::optional<std::size_t> table = std::nullopt;  ///< Flow::table_heads to repeat above it
  std::optional<std::size_t> frame = std::nullopt;  ///< Flow::frames drawn around it
  std::optional<document::HeadingPlace> bookmark = std::nullopt;
  bool starts_page = false;
  std::vector<std::string> anchors = {};  ///< that lead to its top
  std::uint64_t entry = 0;                ///< number of the entry it is about, or 0
};

/// Drawn around all bands of one frame that stand on one page.
struct Frame {
  Mpt thickness = 0;
  Mpt bar = 0;  ///< width of a heavy bar at the left, 0 for none
};

/// A document as strips, before it is cut into pages.
struct Flow {
  std::vector<Band> bands;
  std::vector<Band> table_heads;
  std::vector<Frame> frames;
};

struct Bookmark {
  document::HeadingPlace heading;
  Mpt y = 0;
};

struct AnchorPlace {
  std::string anchor;
  Mpt y = 0;
};

struct EntryPlace {
  std::uint64_t entry = 0;
  Mpt y = 0;
};

/// One page's text area.
struct Page {
  Mpt paper_height = 0;  ///< 0: that of all pages
  std::vector<Draw> draws;
  std::vector<Bookmark> bookmarks;
  std::vector<AnchorPlace> anchors;
  std::vector<EntryPlace> entries;
};

}  // namespace benchwarden::print
