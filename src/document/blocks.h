#pragma once

#include <string>
#include <variant>
#include <vector>

#include "document/bar_chart.h"
#include "document/chart.h"
#include "document/label.h"
#include "document/table.h"

namespace benchwarden::document {

// Anchors are names within a document, of lower-case letters, digits and hyphens, each given once.
// A link names the anchor it leads to; on paper and on screen it is followed by a touch.

/// Level 1 … 4, under the title of the document.
struct Heading {
  int level = 1;
  std::string text;
  std::string anchor = {};
};

enum class ParagraphStyle {
  kNormal,
  kSmall,    ///< sources, methods, remarks
  kCaution,  ///< set apart from the text around it
};

/// "\n" in the text starts a new line.
struct Paragraph {
  std::string text;
  ParagraphStyle style = ParagraphStyle::kNormal;
};

/// One figure a reader looks for first: "Used oil collected", "164.2", "kg".
struct KeyFigure {
  std::string label;
  std::string value;
  std::string unit;
  std::optional<std::string> raw = {};  ///< for machines, as Cell::raw; without it the value
  std::string name = {};                ///< for machines; the label when empty
  std::string link = {};                ///< to what is behind it
};

struct KeyFigures {
  std::vector<KeyFigure> figures;
  std::string name;  ///< for machines: the "table" these figures stand in
};

/// A framed list of remarks, e.g. what is known about the quality of the data.
struct NoteBox {
  std::string title;
  std::vector<std::string> lines;
  std::string when_empty;  ///< printed when there are no lines, e.g. "none"
};

/// A framed caution: what to mind, and where the words come from.
struct CautionBox {
  std::string title;
  std::vector<std::string> sentences;
  std::vector<std::string> sources;
  std::string name = {};  ///< for machines; what has none is not told them
};

/// One question to be answered by hand.
struct ChecklistItem {
  std::string text;
  std::vector<std::string> answers;  ///< each with a box to tick
  std::string write = {};            ///< label of a line to write on, e.g. "bar"; none when empty
  std::string name = {};             ///< for machines: what is asked
};

/// To be filled in on paper; an item is never parted by a page break.
struct Checklist {
  std::string caption;
  std::vector<ChecklistItem> items;
  std::string continued = {};  ///< stands above where it goes on on another page
  std::string name = {};       ///< for machines: the form; what has none is not told them
  std::string about = {};      ///< for machines: what it is asked of
};

/// A QR code with the words that say what it holds beside it.
struct ScanCode {
  std::string content;
  std::vector<std::string> lines;
};

/// Every heading of the document after it, down to a level, with the page it stands on.
struct Contents {
  std::string title;
  int depth = 2;
};

/// Every entry that a row of a table is about, by number, with the pages such rows stand on. The
/// last block of a document.
struct EntryIndex {
  std::string title;
  std::string when_empty;
};

/// Empty lines to write on by hand, each with its label below: name, date, signature.
struct SignatureLine {
  std::vector<std::string> labels;
};

using Block =
    std::variant<Heading, Paragraph, KeyFigures, Table, Chart, BarChart, NoteBox, CautionBox,
                 Checklist, SignatureLine, ScanCode, Contents, EntryIndex, Label>;

}  // namespace benchwarden::document
