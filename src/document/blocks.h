#pragma once

#include <string>
#include <variant>
#include <vector>

#include "document/chart.h"
#include "document/table.h"

namespace benchwarden::document {

/// Level 1 … 3, under the title of the document.
struct Heading {
  int level = 1;
  std::string text;
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
  std::string raw = {};   ///< for machines, as Cell::raw; the value when empty
  std::string name = {};  ///< for machines; the label when empty
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
};

/// Empty lines to write on by hand, each with its label below: name, date, signature.
struct SignatureLine {
  std::vector<std::string> labels;
};

using Block =
    std::variant<Heading, Paragraph, KeyFigures, Table, Chart, NoteBox, CautionBox, SignatureLine>;

}  // namespace benchwarden::document
