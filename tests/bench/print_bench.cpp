// Prints how many pages a second print::to_pdf makes of a long table, beside a bare program that
// writes the same texts at the same places with the same font and draws nothing else. Both in turns
// in one run. It judges nothing: machines differ.
#include <hpdf.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <vector>

#include "print/document_flow.h"
#include "print/page_flow.h"
#include "print/page_furniture.h"
#include "print/pdf.h"

namespace {

using namespace benchwarden;

constexpr int kRowsOfAPage = 38;

std::string read_all(const char* path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

/// A chapter with a table for each page, or nearly.
document::Document book_of(int pages) {
  document::Document document;
  document.title = "Every entry";
  document.furniture.page_of = "page {page} of {pages}";
  document.furniture.site = "Saltmarsh Damper Works, Quay Lane 4";
  document::Section section;
  for (int page = 0; page < pages; ++page) {
    document::Table table;
    table.caption = "Chapter " + std::to_string(page + 1);
    table.columns = {{"Entry", "", document::Align::kNumber},
                     {"Day", ""},
                     {"What", ""},
                     {"Volume", "L", document::Align::kDecimal},
                     {"Mass", "kg", document::Align::kDecimal}};
    for (int row = 0; row < kRowsOfAPage; ++row) {
      const int number = page * kRowsOfAPage + row + 1;
      table.rows.push_back({{{std::to_string(number)},
                             {"2026-10-" + std::to_string(10 + row % 20)},
                             {"Suspension oil drained, drum D-07"},
                             {std::to_string(number % 90) + ".25"},
                             {std::to_string(number % 70) + ".5"}}});
    }
    section.blocks.emplace_back(document::Heading{1, table.caption});
    section.blocks.emplace_back(std::move(table));
  }
  document.sections.push_back(std::move(section));
  return document;
}

using Texts = std::vector<std::vector<print::TextDraw>>;

/// The texts of each page as to_pdf places them, on A4 with the margins of the layout.
Texts texts_of(const document::Document& document, const print::PdfOptions& options) {
  const auto font = print::FontMetrics::read(options.font_bytes);
  const print::Layout& layout = options.layout;
  const print::Mpt width = print::from_micrometres(210'000) - layout.binding_edge - layout.margin;
  const print::Mpt height = print::points(792) - 2 * layout.margin;
  const print::Typesetter type(layout, *font, width);
  const print::PageFurniture furniture(document, type, 0);
  const auto flow = print::flow_of(document, type);
  const auto pages = print::cut_into_pages(*flow, width, height - furniture.foot_height());
  Texts texts(pages.size());
  for (std::size_t i = 0; i < pages.size(); ++i) {
    std::vector<print::Draw> draws = pages[i].draws;
    for (print::Draw& draw : furniture.foot(i + 1, pages.size())) draws.push_back(std::move(draw));
    for (const print::Draw& draw : draws) {
      if (const auto* text = std::get_if<print::TextDraw>(&draw)) texts[i].push_back(*text);
    }
  }
  return texts;
}

/// Bytes of the file; 0 on an error.
std::size_t write_bare(const Texts& pages) {
  HPDF_Doc pdf = HPDF_New(nullptr, nullptr);
  HPDF_UseUTFEncodings(pdf);
  HPDF_SetCompressionMode(pdf, HPDF_COMP_ALL);
  const char* name = HPDF_LoadTTFontFromFile(pdf, BENCHWARDEN_FONT, HPDF_TRUE);
  HPDF_Font font = HPDF_GetFont(pdf, name, "UTF-8");
  for (const auto& texts : pages) {
    HPDF_Page page = HPDF_AddPage(pdf);
    HPDF_Page_SetSize(page, HPDF_PAGE_SIZE_A4, HPDF_PAGE_PORTRAIT);
    for (const print::TextDraw& text : texts) {
      HPDF_Page_SetFontAndSize(page, font, static_cast<float>(text.size) / 1000.0F);
      HPDF_Page_BeginText(page);
      HPDF_Page_TextOut(page, 57.0F + static_cast<float>(text.x) / 1000.0F,
                        800.0F - static_cast<float>(text.y) / 1000.0F, text.text.c_str());
      HPDF_Page_EndText(page);
    }
  }
  HPDF_SaveToStream(pdf);
  const std::size_t size = HPDF_GetStreamSize(pdf);
  HPDF_Free(pdf);
  return size;
}

template <class F>
double seconds(const F& run) {
  const auto start = std::chrono::steady_clock::now();
  run();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

struct Spread {
  double low = 0;
  double median = 0;
  double high = 0;
};

Spread spread_of(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return {values.front(), values[values.size() / 2], values.back()};
}

void compare(int wanted, int runs, const print::PdfOptions& options) {
  const document::Document document = book_of(wanted);
  const Texts texts = texts_of(document, options);
  std::size_t text_count = 0;
  for (const auto& page : texts) text_count += page.size();
  std::vector<double> ours;
  std::vector<double> bare;
  std::vector<double> ratios;
  std::size_t our_size = 0;
  std::size_t bare_size = 0;
  for (int run = 0; run < runs; ++run) {
    bare.push_back(seconds([&] { bare_size = write_bare(texts); }));
    ours.push_back(seconds([&] { our_size = print::to_pdf(document, options).value().size(); }));
    ratios.push_back(ours.back() / bare.back());
  }
  const auto pages = static_cast<double>(texts.size());
  const Spread our = spread_of(ours);
  const Spread other = spread_of(bare);
  const Spread ratio = spread_of(ratios);
  std::printf("%5zu pages, %6zu texts, %d runs\n", texts.size(), text_count, runs);
  const auto line = [&](const char* name, const Spread& took, std::size_t size) {
    std::printf("  %-12s %8.1f ms (%.1f to %.1f), %7.0f pages a second, %zu bytes\n", name,
                took.median * 1e3, took.low * 1e3, took.high * 1e3, pages / took.median, size);
  };
  line("print::to_pdf", our, our_size);
  line("bare library", other, bare_size);
  std::printf("  time over bare: %.2f (%.2f to %.2f)\n", ratio.median, ratio.low, ratio.high);
}

}  // namespace

int main() {
  const std::string font = read_all(BENCHWARDEN_FONT);
  const std::string measures = read_all(BENCHWARDEN_TOP "/reports/layout/report.toml");
  const auto layout = print::read_layout({"report.toml", measures});
  if (font.empty() || !layout) {
    std::fprintf(stderr, "the font or the layout cannot be read\n");
    return EXIT_FAILURE;
  }
  const print::PdfOptions options{print::Paper::kA4, font, {1'793'690'103'000}, *layout};
  for (const int pages : {1, 10, 100, 1000}) compare(pages, pages < 1000 ? 21 : 7, options);
}
