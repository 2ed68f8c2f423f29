// What libFuzzer runs, over a fixed corpus and over seeded random inputs.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <random>

#include "calculations/calculator.h"
#include "fuzz/drive_calculation.h"
#include "quantities/units.h"
#include "workshop/project_files.h"

namespace benchwarden::fuzz {
namespace {

using calculations::Calculator;
using calculations::InputRule;
using calculations::ValueType;

std::map<std::string, std::string> corpus() {
  std::map<std::string, std::string> texts;
  for (const auto& item :
       std::filesystem::directory_iterator(BENCHWARDEN_TOP "/tests/fuzz/corpus/calculate")) {
    std::ifstream stream(item.path(), std::ios::binary);
    texts[item.path().stem()] = {std::istreambuf_iterator<char>(stream),
                                 std::istreambuf_iterator<char>()};
  }
  return texts;
}

TEST(CalculateFuzz, TheCorpusIsCalculatedOrRefused) {
  std::map<std::string, int> answered;
  for (const auto& [name, text] : corpus()) {
    const Driven driven = drive_calculation(workshop::real_definitions(), text);
    EXPECT_EQ(driven.fault, "") << name << "\n" << text;
    if (driven.answered) ++answered[driven.calculation];
  }
  for (const Calculator& calculator : calculations::calculators()) {
    EXPECT_GT(answered[std::string(calculator.name)], 0) << calculator.name;
  }
}

/// Texts for inputs: mostly near what is taken, often at its ends, now and then anything.
class Draw {
 public:
  std::string text(const Calculator& calculator) {
    std::string text(calculator.name);
    list_rows_ = one_in(3) ? 1 : 1 + random_() % 40;
    for (const InputRule& rule : calculator.inputs) {
      if (one_in(12)) continue;
      if (!rule.required && one_in(2)) continue;
      text += "\n" + std::string(rule.name) + "=" + value(rule);
    }
    if (one_in(40)) text += "\nno_such_input=1";
    return text;
  }

 private:
  bool one_in(unsigned count) { return random_() % count == 0; }
  template <std::size_t count>
  std::string any_of(const char* const (&texts)[count]) {
    return texts[random_() % count];
  }

  std::string anything() {
    static constexpr const char* kTexts[] = {
        "",           "nan",        "inf",     "-inf",   "1e999", "1e308",      "-1e308",
        "5e-324",     "1e-200",     "-0",      "1,250",  "1,25",  "0x10",       "{value}",
        "\xff\xfe",   "=",          ";;;",     "1 2 3",  "today", "9999-12-31", "10000-01-01",
        "1900-01-01", "2023-02-29", "0000-00", "9999-12"};
    return any_of(kTexts);
  }
  std::string number(const InputRule& rule) {
    double value = 0;
    switch (random_() % 8) {
      case 0:
        value = rule.low;
        break;
      case 1:
        value = rule.high;
        break;
      case 2:
        value = std::nextafter(rule.high, 1e300);
        break;
      case 3:
        value = std::nextafter(rule.low, rule.high);
        break;
      default:
        value = std::uniform_real_distribution<double>(rule.low, rule.high)(random_);
        if (one_in(2)) value = std::floor(value);
    }
    std::array<char, 64> buffer{};
    std::string text(buffer.data(),
                     std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr);
    if (!one_in(20)) return text;
    const auto units = quantities::all_units();
    return text + " " + std::string(units[random_() % units.size()].symbol);
  }
  std::string list(const InputRule& rule) {
    std::size_t rows = std::max<std::size_t>(rule.rows_min, list_rows_);
    if (one_in(10)) rows = random_() % 60;
    std::string text;
    double value = rule.low;
    for (std::size_t i = 0; i < rows; ++i) {
      value += (rule.high - rule.low) / 100 * static_cast<double>(random_() % 3);
      text += (one_in(2) ? std::to_string(value) : number(rule)) + ";";
    }
    return text;
  }
  std::string value(const InputRule& rule) {
    if (one_in(25)) return anything();
    switch (rule.type) {
      case ValueType::kNumber:
        return number(rule);
      case ValueType::kList:
        return list(rule);
      case ValueType::kCode:
        return std::string(rule.codes[random_() % rule.codes.size()]);
      case ValueType::kDate:
        break;
    }
    static constexpr const char* kDays[] = {"9999-12-31", "9998-06-15", "9900-02-28", "1900-01-01",
                                            "2024-02-29", "2026-11",    "2026-11-25"};
    return any_of(kDays);
  }

  std::mt19937 random_{20261125};
  std::size_t list_rows_ = 1;
};

TEST(CalculateFuzz, RandomInputsAreCalculatedOrRefused) {
  constexpr int kRounds = 1500;
  Draw draw;
  for (const Calculator& calculator : calculations::calculators()) {
    int answered = 0;
    for (int round = 0; round < kRounds; ++round) {
      const std::string text = draw.text(calculator);
      const Driven driven = drive_calculation(workshop::real_definitions(), text);
      ASSERT_EQ(driven.fault, "") << text;
      answered += driven.answered ? 1 : 0;
    }
    EXPECT_GT(answered, 0) << calculator.name;
    EXPECT_LT(answered, kRounds) << calculator.name;
  }
}

}  // namespace
}  // namespace benchwarden::fuzz
