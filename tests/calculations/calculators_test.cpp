#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "calculations/calculator.h"

namespace benchwarden::calculations {
namespace {

using NamedInputs = std::map<std::string, Value, std::less<>>;

TEST(Calculators, AreSortedAndNamedOnce) {
  const auto& all = calculators();
  for (std::size_t i = 1; i < all.size(); ++i) EXPECT_LT(all[i - 1].name, all[i].name);
  for (const Calculator& one : all) EXPECT_EQ(find_calculator(one.name), &one);
  EXPECT_EQ(find_calculator("no-such"), nullptr);
}

TEST(Calculators, NameEveryFaultOfTheInputsAtOnce) {
  const auto found =
      calculate(*find_calculator("nitrogen-state"), {{"temperature_k", 400.0}, {"pressure", 1.0}});
  ASSERT_FALSE(found.ok());
  ASSERT_EQ(found.error().size(), 3U);
  EXPECT_EQ(found.error()[0].code, RefusalCode::kOutOfRange);
  EXPECT_EQ(found.error()[0].name, "temperature_k");
  EXPECT_EQ(found.error()[0].high, 323.15);
  EXPECT_EQ(found.error()[1].code, RefusalCode::kMissing);
  EXPECT_EQ(found.error()[1].name, "absolute_pressure_mpa");
  EXPECT_EQ(found.error()[2].code, RefusalCode::kUnknownInput);
}

TEST(Calculators, RefuseWhatIsNoNumber) {
  for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity()}) {
    const auto found = calculate(*find_calculator("nitrogen-state"),
                                 {{"temperature_k", 300.0}, {"absolute_pressure_mpa", bad}});
    ASSERT_FALSE(found.ok());
    EXPECT_EQ(found.error()[0].code, RefusalCode::kOutOfRange);
  }
}

TEST(Calculators, RefuseAnotherTypeAndAnUnknownChoice) {
  const auto found = calculate(*find_calculator("unit"), {{"value", std::string("one")},
                                                          {"from", std::string("furlong")},
                                                          {"to", std::string("bar")}});
  ASSERT_FALSE(found.ok());
  EXPECT_EQ(found.error()[0].code, RefusalCode::kWrongType);
  EXPECT_EQ(found.error()[1].code, RefusalCode::kUnknownCode);
}

TEST(Calculators, CountTheRowsOfAList) {
  const auto few = calculate(*find_calculator("fill-forecast"),
                             {{"daily_l", std::vector<double>(27, 1.0)}, {"remaining_l", 10.0}});
  ASSERT_FALSE(few.ok());
  EXPECT_EQ(few.error()[0].code, RefusalCode::kTooFew);
  EXPECT_EQ(few.error()[0].low, 28);
  const auto many = calculate(*find_calculator("fill-forecast"),
                              {{"daily_l", std::vector<double>(4001, 1.0)}, {"remaining_l", 10.0}});
  ASSERT_FALSE(many.ok());
  EXPECT_EQ(many.error()[0].code, RefusalCode::kTooMany);
}

TEST(Calculators, ShowTheEarlyDayOfAForecastRoundedDownAndTheLateOneUp) {
  std::vector<double> daily(56, 0.0);
  for (std::size_t day = 0; day < daily.size(); ++day) daily[day] = day % 3 == 0 ? 2.5 : 0.5;
  const base::CivilDate from{2026, 1, 1};
  const auto found = calculate(*find_calculator("fill-forecast"),
                               {{"daily_l", daily}, {"remaining_l", 50.0}, {"from_date", from}});
  ASSERT_TRUE(found.ok());
  std::map<std::string, Value> results;
  for (const auto& [name, value] : *found) results.emplace(name, value);
  const auto days = [&](const char* name) { return std::get<double>(results.at(name)); };
  const auto date = [&](double whole) {
    return Value(base::add_days(from, static_cast<int>(whole)));
  };
  EXPECT_EQ(results.at("book_by_date"), date(std::floor(days("book_by_days"))));
  EXPECT_EQ(results.at("earliest_80_date"), date(std::floor(days("earliest_80_days"))));
  EXPECT_EQ(results.at("latest_95_date"), date(std::ceil(days("latest_95_days"))));
  EXPECT_NE(days("book_by_days"), std::floor(days("book_by_days")));
  EXPECT_EQ(results.at("rate"), Value(std::string("no-change-seen")));
}

TEST(Calculators, RefuseUnitsOfAnotherKind) {
  const auto found =
      calculate(*find_calculator("unit"),
                {{"value", 1.0}, {"from", std::string("bar")}, {"to", std::string("l")}});
  ASSERT_FALSE(found.ok());
  EXPECT_EQ(found.error()[0].code, RefusalCode::kNoSolution);
}

/// A value that the rule lets through: its ends, and what lies between.
class Draw {
 public:
  double number(const InputRule& rule) {
    switch (random_() % 4) {
      case 0:
        return rule.low;
      case 1:
        return rule.high;
      default:
        break;
    }
    return std::uniform_real_distribution<double>(rule.low, rule.high)(random_);
  }
  Value value(const InputRule& rule) {
    if (rule.type == ValueType::kNumber) return number(rule);
    if (rule.type == ValueType::kCode) {
      return std::string(rule.codes[random_() % rule.codes.size()]);
    }
    if (rule.type == ValueType::kDate) {
      return base::add_days({2000, 1, 1}, static_cast<int>(random_() % 20000));
    }
    std::vector<double> list(rule.rows_min + random_() % 40);
    if (list.size() > rule.rows_max) list.resize(rule.rows_max);
    for (double& one : list) one = number(rule);
    return list;
  }
  bool chance() { return random_() % 2 == 0; }

 private:
  std::mt19937 random_{20261125};
};

// Whatever is let in, only finite numbers or refusals come out.
TEST(Calculators, GiveFiniteNumbersOrRefuse) {
  Draw draw;
  for (const Calculator& calculator : calculators()) {
    int answered = 0;
    for (int round = 0; round < 400; ++round) {
      NamedInputs inputs;
      for (const InputRule& rule : calculator.inputs) {
        if (rule.required || draw.chance()) inputs.emplace(rule.name, draw.value(rule));
      }
      const auto found = calculate(calculator, std::move(inputs));
      if (!found) continue;
      ++answered;
      for (const NamedValue& result : *found) {
        if (const auto* number = std::get_if<double>(&result.value)) {
          ASSERT_TRUE(std::isfinite(*number)) << calculator.name << " " << result.name;
        }
      }
    }
    RecordProperty(std::string(calculator.name), answered);
  }
}

}  // namespace
}  // namespace benchwarden::calculations
