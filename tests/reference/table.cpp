#include "reference/table.h"

#include <cmath>
#include <cstdio>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace benchwarden::testing {
namespace {

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
  return cells;
}

}  // namespace

std::vector<Row> read_table(const std::string& name) {
  std::ifstream file(std::string(BENCHWARDEN_TOP) + "/tests/reference/" + name + ".csv");
  std::vector<std::string> heading;
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    const std::vector<std::string> cells = cells_of(line);
    if (heading.empty()) {
      heading = cells;
      continue;
    }
    std::map<std::string, std::string> row;
    for (std::size_t i = 0; i < heading.size(); ++i) row.emplace(heading[i], cells.at(i));
    rows.emplace_back(std::move(row));
  }
  if (rows.empty()) throw std::runtime_error("no rows in " + name);
  return rows;
}

std::vector<double> column(const std::vector<Row>& rows, const std::string& name) {
  std::vector<double> values;
  for (const Row& row : rows) values.push_back(row.number(name));
  return values;
}

Deviation::~Deviation() { std::printf("largest deviation, %s: %.2g\n", what_.c_str(), largest_); }

double Deviation::of(double value, double expected) {
  const double away = std::abs(value - expected);
  const double deviation = expected == 0 ? away : away / std::abs(expected);
  largest_ = std::isnan(deviation) ? deviation : std::fmax(largest_, deviation);
  return deviation;
}

}  // namespace benchwarden::testing
