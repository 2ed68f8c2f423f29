#pragma once

#include <array>

#include "base/data_file.h"
#include "base/result.h"
#include "base/toml.h"
#include "print/length.h"

namespace benchwarden::print {

/// The measures of a label. Sizes of type are the largest; they shrink to what fits the paper, down
/// to the heights of letters that are stated.
struct LabelLayout {
  Mpt margin = 0;
  Mpt words_size = 0;
  Mpt words_cap_height = 0;  ///< at least 5 mm, legible from 2 m: common practice, no source
  Mpt name_size = 0;
  Mpt id_size = 0;
  Mpt name_cap_height = 0;  ///< of the name and the id
  Mpt text_size = 0;
  Mpt x_height = 0;  ///< of all other text, where the label asks for no more
  int leading_percent = 0;
  Mpt qr_side = 0;          ///< at least 25 mm, from A6 on
  Mpt small_qr_side = 0;    ///< on smaller paper
  Mpt qr_module = 0;        ///< at least 2 pt
  Mpt write_height = 0;     ///< of a line to write on
  Mpt pictogram_side = 0;   ///< at least
  int pictogram_share = 1;  ///< each has at least this part of the area of the label: 15 for 1/15
};

/// The measures of a printed page, from reports/layout/report.toml.
struct Layout {
  Mpt margin = 0;        ///< at least 15 mm: top, right, bottom
  Mpt binding_edge = 0;  ///< at least 20 mm: left, for the punch
  Mpt title_size = 0;
  std::array<Mpt, 4> heading_sizes{};  ///< of levels 1 … 4
  Mpt body_size = 0;                   ///< 10 … 11 pt
  Mpt small_size = 0;                  ///< at least 9 pt
  Mpt table_size = 0;                  ///< at least 9 pt
  Mpt figure_size = 0;
  Mpt footer_size = 0;        ///< at least 8 pt
  int leading_percent = 0;    ///< line pitch over size, 110 … 180
  int bold_percent = 0;       ///< outline that makes text strong, over size, 1 … 8
  Mpt rule_width = 0;         ///< at least 0.5 pt
  Mpt frame_width = 0;        ///< at least 0.5 pt
  Mpt heavy_width = 0;        ///< at least 1 pt
  int rule_grey_percent = 0;  ///< of the lines between rows, 30 … 100
  int shade_percent = 0;      ///< grey of shaded areas, 0 … 15
  LabelLayout label;
};

/// Reads the file; each fault names what would be accepted.
base::Result<Layout, base::FileFaults> read_layout(const base::DataFile& file);

}  // namespace benchwarden::print
