#include "print/pdf_file.h"

#include <hpdf.h>

#include <array>
#include <cassert>
#include <chrono>
#include <limits>
#include <map>
#include <memory>
#include <utility>

#include "print/unicode_map.h"

namespace benchwarden::print {
namespace {

/// Dark enough to stay a dark grey where it is printed in black.
struct Colour {
  HPDF_REAL red;
  HPDF_REAL green;
  HPDF_REAL blue;
};
constexpr Colour kRed{0.8F, 0, 0};
constexpr HPDF_UINT kFontBuffer = 65536;  // bytes; one piece of the stream the font is put in

constexpr Mpt kUnderline = points(1) / 2;
constexpr int kUnderlineGrey = 50;

/// The library calls back on errors; throwing through its C frames is not defined everywhere, so
/// the first error is only remembered. The library itself ignores all calls after it.
struct FirstError {
  HPDF_STATUS code = 0;
  HPDF_STATUS detail = 0;
};

void remember_error(HPDF_STATUS code, HPDF_STATUS detail, void* user) {
  auto* first = static_cast<FirstError*>(user);
  if (first->code == 0) {
    *first = {code, detail};
  }
}

HPDF_REAL real(Mpt length) { return static_cast<HPDF_REAL>(static_cast<double>(length) / 1000.0); }

/// 0 is black, 1 is white.
HPDF_REAL lightness(int grey_percent) {
  return static_cast<HPDF_REAL>(100 - grey_percent) / 100.0F;
}

HPDF_Date pdf_date(base::Instant instant) {
  namespace chrono = std::chrono;
  const chrono::sys_time<chrono::milliseconds> time{chrono::milliseconds{instant.ms}};
  const auto day = chrono::floor<chrono::days>(time);
  const chrono::year_month_day date{day};
  const chrono::hh_mm_ss clock{chrono::floor<chrono::seconds>(time - day)};
  return {static_cast<int>(date.year()),
          static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day())),
          static_cast<int>(clock.hours().count()),
          static_cast<int>(clock.minutes().count()),
          static_cast<int>(clock.seconds().count()),
          'Z',
          0,
          0};
}

class PdfWriter {
 public:
  explicit PdfWriter(const PdfPlan& plan)
      : plan_(plan), pdf_(HPDF_New(remember_error, &first_error_), HPDF_Free) {}

  base::Result<std::string> run(std::string_view font_bytes) {
    if (pdf_ == nullptr) {
      return base::Error{base::ErrorCode::kUnavailable, "no memory for a PDF"};
    }
    HPDF_UseUTFEncodings(pdf_.get());
    HPDF_SetCurrentEncoder(pdf_.get(), "UTF-8");
    HPDF_SetCompressionMode(pdf_.get(), HPDF_COMP_ALL);
    set_properties();
    load_font(font_bytes);
    if (font_ == nullptr) {
      return base::Error{base::ErrorCode::kInternal, "the PDF font: " + error_text()};
    }
    add_pages();
    for (std::size_t i = 0; i < pages_.size() && first_error_.code == 0; ++i) {
      fill_page(i);
    }
    return save();
  }

 private:
  [[nodiscard]] std::string error_text() const {
    return "library error " + std::to_string(first_error_.code) + ", detail " +
           std::to_string(first_error_.detail);
  }

  void set_properties() {
    HPDF_Doc pdf = pdf_.get();
    const HPDF_Date date = pdf_date(plan_.made_at);
    HPDF_SetInfoDateAttr(pdf, HPDF_INFO_CREATION_DATE, date);
    HPDF_SetInfoDateAttr(pdf, HPDF_INFO_MOD_DATE, date);
    HPDF_SetInfoAttr(pdf, HPDF_INFO_TITLE, plan_.title.c_str());
    HPDF_SetInfoAttr(pdf, HPDF_INFO_AUTHOR, plan_.author.c_str());
    HPDF_SetInfoAttr(pdf, HPDF_INFO_SUBJECT, plan_.subject.c_str());
    HPDF_SetInfoAttr(pdf, HPDF_INFO_CREATOR, "Benchwarden");
    HPDF_Dict_Add(pdf->catalog, "Lang",
                  HPDF_String_New(pdf->mmgr, plan_.language.c_str(), nullptr));
  }

  /// The library's own loader reads files only; its parts take a stream in memory as well.
  void load_font(std::string_view bytes) {
    HPDF_Doc pdf = pdf_.get();
    HPDF_Stream stream = HPDF_MemStream_New(pdf->mmgr, kFontBuffer);
    if (stream == nullptr || bytes.size() > std::numeric_limits<HPDF_UINT>::max()) {
      return;
    }
    HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                      static_cast<HPDF_UINT>(bytes.size()));
    HPDF_FontDef definition = HPDF_TTFontDef_Load(pdf->mmgr, stream, HPDF_TRUE);
    if (definition == nullptr || HPDF_Doc_RegisterFontDef(pdf, definition) != HPDF_OK) {
      return;
    }
    std::array<char, 7> subset_tag = {'B', 'W', 'A', 'A', 'A', 'A', '\0'};
    HPDF_TTFontDef_SetTagName(definition, subset_tag.data());
    font_ = HPDF_GetFont(pdf, definition->base_font, "UTF-8");
    mend_unicode_map();
  }

  /// The library writes this map with operators that do not belong into it; readers warn of it, and
  /// strict ones find no text.
  void mend_unicode_map() {
    void* found =
        font_ == nullptr ? nullptr : HPDF_Dict_GetItem(font_, "ToUnicode", HPDF_OCLASS_DICT);
    if (found == nullptr) {
      return;
    }
    HPDF_Stream stream = static_cast<HPDF_Dict>(found)->stream;
    HPDF_MemStream_FreeData(stream);
    HPDF_Stream_WriteStr(stream, unicode_map().c_str());
  }

  [[nodiscard]] Mpt height_of(const Page& page) const {
    return page.paper_height == 0 ? plan_.paper_height : page.paper_height;
  }

  /// All of them before any is filled: links lead forwards, too.
  void add_pages() {
    for (std::size_t i = 0; i < plan_.pages.size() && first_error_.code == 0; ++i) {
      HPDF_Page page = HPDF_AddPage(pdf_.get());
      HPDF_Page_SetWidth(page, real(plan_.paper_width));
      HPDF_Page_SetHeight(page, real(height_of(plan_.pages[i])));
      pages_.push_back(page);
    }
  }

  void fill_page(std::size_t number) {
    const Page& page = plan_.pages[number];
    page_ = pages_[number];
    height_ = height_of(page);
    for (const Draw& draw : page.draws) {
      std::visit(*this, draw);
    }
    for (const Bookmark& bookmark : page.bookmarks) {
      add_bookmark(bookmark, number);
    }
  }

  [[nodiscard]] HPDF_REAL x_of(Mpt x) const { return real(plan_.text_left + x); }
  [[nodiscard]] HPDF_REAL y_of(Mpt y) const { return real(height_ - plan_.text_top - y); }

  void add_bookmark(const Bookmark& bookmark, std::size_t page) {
    const auto level = static_cast<std::size_t>(bookmark.heading.level);
    assert(level >= 1 && level < parents_.size());
    HPDF_Outline outline =
        HPDF_CreateOutline(pdf_.get(), parents_.at(level - 1), bookmark.heading.text.c_str(),
                           HPDF_GetEncoder(pdf_.get(), "UTF-8"));
    if (outline == nullptr) return;
    HPDF_Outline_SetDestination(outline, destination({page, bookmark.y}));
    parents_.at(level) = outline;
  }

  /// One for all that lead to the same place.
  HPDF_Destination destination(const Spot& spot) {
    HPDF_Destination& known = destinations_[{spot.page, spot.y}];
    if (known == nullptr) {
      known = HPDF_Page_CreateDestination(pages_.at(spot.page));
      HPDF_Destination_SetFitH(known, y_of(spot.y));
    }
    return known;
  }

  base::Result<std::string> save() {
    HPDF_SaveToStream(pdf_.get());
    std::string bytes(first_error_.code == 0 ? HPDF_GetStreamSize(pdf_.get()) : 0, '\0');
    auto length = static_cast<HPDF_UINT32>(bytes.size());
    HPDF_ResetStream(pdf_.get());
    HPDF_ReadFromStream(pdf_.get(), reinterpret_cast<HPDF_BYTE*>(bytes.data()), &length);
    if (first_error_.code != 0 || bytes.empty() || length != bytes.size()) {
      return base::Error{base::ErrorCode::kUnavailable, "writing the PDF: " + error_text()};
    }
    return bytes;
  }

 public:
  // One call per kind of draw, for std::visit.
  void operator()(const TextDraw& text) {
    if (text.text.empty()) {
      return;
    }
    const bool strong = text.weight == Weight::kStrong;
    HPDF_Page_SetFontAndSize(page_, font_, real(text.size));
    HPDF_Page_SetTextRenderingMode(page_, strong ? HPDF_FILL_THEN_STROKE : HPDF_FILL);
    HPDF_Page_SetGrayFill(page_, 0);
    if (strong) {
      HPDF_Page_SetGrayStroke(page_, 0);
      HPDF_Page_SetLineWidth(page_, real(text.size * plan_.bold_percent / 100));
    }
    HPDF_Page_BeginText(page_);
    if (text.turn == Turn::kNone) {
      HPDF_Page_TextOut(page_, x_of(text.x), y_of(text.y), text.text.c_str());
    } else {
      const HPDF_REAL up = text.turn == Turn::kLeft ? 1 : -1;
      HPDF_Page_SetTextMatrix(page_, 0, up, -up, 0, x_of(text.x), y_of(text.y));
      HPDF_Page_ShowText(page_, text.text.c_str());
    }
    HPDF_Page_EndText(page_);
  }

  void operator()(const FillDraw& fill) {
    HPDF_Page_SetGrayFill(page_, lightness(fill.grey_percent));
    HPDF_Page_Rectangle(page_, x_of(fill.x), y_of(fill.y + fill.height), real(fill.width),
                        real(fill.height));
    HPDF_Page_Fill(page_);
  }

  void operator()(const AreaDraw& area) {
    if (area.ink == document::Ink::kRed) {
      HPDF_Page_SetRGBFill(page_, kRed.red, kRed.green, kRed.blue);
    } else {
      HPDF_Page_SetGrayFill(page_, area.ink == document::Ink::kBlack ? 0 : 1);
    }
    for (const std::vector<Point>& ring : area.rings) {
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const auto add = i == 0 ? HPDF_Page_MoveTo : HPDF_Page_LineTo;
        add(page_, x_of(ring[i].x), y_of(ring[i].y));
      }
      HPDF_Page_ClosePath(page_);
    }
    if (!area.rings.empty()) HPDF_Page_Eofill(page_);
  }

  void operator()(const LineDraw& line) {
    HPDF_Page_SetGrayStroke(page_, lightness(line.grey_percent));
    HPDF_Page_SetLineWidth(page_, real(line.thickness));
    HPDF_Page_MoveTo(page_, x_of(line.x1), y_of(line.y1));
    HPDF_Page_LineTo(page_, x_of(line.x2), y_of(line.y2));
    HPDF_Page_Stroke(page_);
  }

  void operator()(const LinkDraw& link) {
    assert(link.target && link.target->page < pages_.size());
    const Mpt bottom = link.y + link.height;
    if (link.underlined) {
      (*this)(LineDraw{link.x, bottom, link.x + link.width, bottom, kUnderline, kUnderlineGrey});
    }
    const HPDF_Rect area = {x_of(link.x), y_of(bottom), x_of(link.x + link.width), y_of(link.y)};
    HPDF_Annotation annotation = HPDF_Page_CreateLinkAnnot(page_, area, destination(*link.target));
    HPDF_LinkAnnot_SetBorderStyle(annotation, 0, 0, 0);
  }

  /// resolve_references has put text in its place.
  void operator()(const PageNumberDraw&) { assert(false); }

 private:
  const PdfPlan& plan_;
  FirstError first_error_;
  std::unique_ptr<HPDF_Doc_Rec, void (*)(HPDF_Doc)> pdf_;
  HPDF_Font font_ = nullptr;
  std::vector<HPDF_Page> pages_;
  HPDF_Page page_ = nullptr;  ///< the one being filled
  Mpt height_ = 0;            ///< of its paper
  std::map<std::pair<std::size_t, Mpt>, HPDF_Destination> destinations_;
  std::array<HPDF_Outline, 5> parents_{};  ///< the latest of each level; level 0 is the root
};

}  // namespace

base::Result<std::string> write_pdf(const PdfPlan& plan, std::string_view font_bytes) {
  assert(!plan.pages.empty() && plan.paper_width > 0);
  return PdfWriter(plan).run(font_bytes);
}

}  // namespace benchwarden::print
