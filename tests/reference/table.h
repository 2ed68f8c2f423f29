#pragma once

#include <map>
#include <string>
#include <vector>

namespace benchwarden::testing {

/// A row of a reference table: the cells by the names of the heading.
class Row {
 public:
  explicit Row(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
  [[nodiscard]] const std::string& text(const std::string& name) const { return cells_.at(name); }
  [[nodiscard]] double number(const std::string& name) const { return std::stod(text(name)); }

 private:
  std::map<std::string, std::string> cells_;
};

/// tests/reference/<name>.csv. Lines that start with "#" name the source.
std::vector<Row> read_table(const std::string& name);
std::vector<double> column(const std::vector<Row>& rows, const std::string& name);

/// The largest of the deviations seen, printed with what it was of, for the table in DEVELOPERS.md.
class Deviation {
 public:
  explicit Deviation(std::string what) : what_(std::move(what)) {}
  Deviation(const Deviation&) = delete;
  Deviation& operator=(const Deviation&) = delete;
  ~Deviation();
  /// Relative, or absolute where the expected value is 0. Gives it back.
  double of(double value, double expected);

 private:
  std::string what_;
  double largest_ = 0;
};

}  // namespace benchwarden::testing
