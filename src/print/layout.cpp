#include "print/layout.h"

#include <optional>
#include <string>
#include <string_view>

#include "base/decimal.h"

namespace benchwarden::print {
namespace {

/// One table of the file; every measure is checked against the range the header states.
class Measures {
 public:
  Measures(const base::Toml& table, const std::string& file, base::FileFaults& faults)
      : reader_(table, file, faults) {}

  Mpt millimetres(std::string_view name, std::int64_t least, std::int64_t most) {
    return between_micrometres(name, least * 1000, most * 1000);
  }
  Mpt between_micrometres(std::string_view name, std::int64_t least, std::int64_t most) {
    return from_micrometres(thousandths(name, reader_.text(name), least, most));
  }
  Mpt in_points(std::string_view name, std::string_view least, std::string_view most) {
    return thousandths(name, reader_.text(name), limit(least), limit(most));
  }
  int whole(std::string_view name, int least, int most) {
    const std::int64_t value = reader_.integer_or(name, -1);
    if (value < least || value > most) {
      reader_.fault(std::string(name) + ": a whole number from " + std::to_string(least) + " to " +
                    std::to_string(most) + " is wanted");
      return least;
    }
    return static_cast<int>(value);
  }
  void heading_sizes(std::array<Mpt, 4>& sizes) {
    const std::vector<std::string> texts = reader_.texts("heading_pt");
    if (texts.size() != sizes.size()) {
      reader_.fault("heading_pt: four sizes are wanted, of levels 1 to 4");
      return;
    }
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      sizes.at(i) = thousandths("heading_pt", texts.at(i), limit("10"), limit("30"));
    }
  }
  void finish() { reader_.finish(); }

 private:
  static std::int64_t limit(std::string_view text) {
    return base::parse_decimal(text).value().thousandths;
  }
  std::int64_t thousandths(std::string_view name, const std::string& text, std::int64_t least,
                           std::int64_t most) {
    const auto value = base::parse_decimal(text);
    if (value && value->thousandths >= least && value->thousandths <= most) {
      return value->thousandths;
    }
    reader_.fault(std::string(name) + ": a number in quotes from " + base::format_decimal({least}) +
                  " to " + base::format_decimal({most}) + " is wanted");
    return least;
  }

  base::TomlReader reader_;
};

void read_page(Measures& page, Layout& layout) {
  layout.margin = page.millimetres("margin_mm", 15, 40);
  layout.binding_edge = page.millimetres("binding_edge_mm", 20, 50);
}

void read_text(Measures& text, Layout& layout) {
  layout.title_size = text.in_points("title_pt", "12", "30");
  text.heading_sizes(layout.heading_sizes);
  layout.body_size = text.in_points("body_pt", "10", "11");
  layout.small_size = text.in_points("small_pt", "9", "11");
  layout.table_size = text.in_points("table_pt", "9", "11");
  layout.figure_size = text.in_points("figure_pt", "10", "30");
  layout.footer_size = text.in_points("footer_pt", "8", "10");
  layout.leading_percent = text.whole("leading_percent", 110, 180);
  layout.bold_percent = text.whole("bold_percent", 1, 8);
}

void read_lines(Measures& lines, Layout& layout) {
  layout.rule_width = lines.in_points("rule_pt", "0.5", "2");
  layout.frame_width = lines.in_points("frame_pt", "0.5", "2");
  layout.heavy_width = lines.in_points("heavy_pt", "1", "5");
  layout.rule_grey_percent = lines.whole("rule_grey_percent", 30, 100);
  layout.shade_percent = lines.whole("shade_percent", 0, 15);
}

/// The least heights of letters and their pitch are those of Regulation (EU) 2024/2865.
void read_label(Measures& label, Layout& layout) {
  layout.label.margin = label.millimetres("margin_mm", 3, 10);
  layout.label.words_size = label.in_points("words_pt", "20", "100");
  layout.label.words_cap_height = label.millimetres("words_cap_mm", 5, 20);
  layout.label.name_size = label.in_points("name_pt", "12", "60");
  layout.label.id_size = label.in_points("id_pt", "14", "80");
  layout.label.name_cap_height = label.millimetres("name_cap_mm", 3, 10);
  layout.label.text_size = label.in_points("text_pt", "9", "24");
  layout.label.x_height = label.between_micrometres("x_height_mm", 1'200, 4'000);
  layout.label.leading_percent = label.whole("leading_percent", 120, 180);
  layout.label.qr_side = label.millimetres("qr_mm", 25, 40);
  layout.label.small_qr_side = label.millimetres("small_qr_mm", 15, 25);
  layout.label.qr_module = label.in_points("qr_module_pt", "2", "5");
  layout.label.pictogram_side = label.millimetres("pictogram_mm", 10, 50);
  layout.label.pictogram_share = label.whole("pictogram_part", 5, 15);
  layout.label.write_height = label.millimetres("write_mm", 7, 20);
}

}  // namespace

base::Result<Layout, base::FileFaults> read_layout(const base::DataFile& file) {
  auto parsed = base::parse_toml(file.bytes, file.path);
  if (!parsed) {
    return parsed.error();
  }
  base::FileFaults faults;
  base::TomlReader top(*parsed, file.path, faults);
  Layout layout;
  const auto read_table = [&](std::string_view name, void (*read)(Measures&, Layout&)) {
    const base::Toml* table = top.table(name);
    if (table == nullptr) {
      top.fault("table [" + std::string(name) + "] is missing");
      return;
    }
    Measures measures(*table, file.path, faults);
    read(measures, layout);
    measures.finish();
  };
  read_table("page", read_page);
  read_table("text", read_text);
  read_table("lines", read_lines);
  read_table("label", read_label);
  top.finish();
  if (!faults.empty()) {
    return faults;
  }
  return layout;
}

}  // namespace benchwarden::print
