// The figures of a history: those of the calculator and those the rules find by, entry by entry.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "workshop/calculate.h"
#include "workshop/judgement.h"
#include "workshop/report.h"
#include "workshop/test_workshop.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

using ::testing::HasSubstr;

Told check_of_n1(const std::string& bar, const std::string& celsius, const std::string& when,
                 const std::string& cylinder = "n1") {
  std::string fields = R"({"cylinder":")" + cylinder + R"(","gauge_pressure_bar":)" + bar;
  if (!celsius.empty()) fields += R"(,"ambient_temperature_c":)" + celsius;
  return tell("cylinder-check", fields + "}", when);
}

Told inspection(const std::string& as_found, const std::string& when,
                const std::string& as_left = "") {
  const std::string left = as_left.empty() ? "" : R"(,"as_left_bar":)" + as_left;
  return tell("tool-inspection",
              R"({"inspected_class":"gauge","gauge":"g1","reference_instrument":"R1",)"
              R"("result":"in-service","points":[{"nominal_bar":20,"as_found_bar":)" +
                  as_found + left + "}]}",
              when);
}

Told gauge(const std::string& attributes) {
  return tell("register-change",
              R"({"act":"added","thing_class":"gauge","thing":"g1","name":"G1",)"
              R"("range_bar":40)" +
                  attributes + "}",
              "2025-10-01T08:00:00Z");
}

base::Json history(const TestWorkshop& workshop, const std::string& thing_class,
                   const std::string& id) {
  return show_history(workshop.ports(), thing_class, id).value();
}

/// The story of tests/cases/gas-loss.toml, up to the check that shows the loss.
void lose_gas(const TestWorkshop& workshop) {
  workshop.enter(check_of_n1("150", "20", "2026-10-02T10:00:00Z"));
  workshop.enter(check_of_n1("145", "10", "2026-10-09T10:00:00Z"));
  workshop.enter(check_of_n1("140", "20", "2026-10-16T10:00:00Z"));
  workshop.enter(check_of_n1("134", "20", "2026-10-23T10:00:00Z"));
}

TEST(CylinderFigures, HaveTheContentOfTheCalculator) {
  const TestWorkshop workshop;
  workshop.enter(check_of_n1("145", "10", "2026-10-09T10:00:00Z"));
  const base::Json shown = history(workshop, "cylinder", "n1");
  const auto outcome =
      calculate(real_definitions(), {2026, 11, 25}, "nitrogen-content",
                *input_texts(parsed(R"({"water_capacity_l":50,"gauge_pressure_bar":145,)"
                                    R"("temperature_c":10,"atmosphere_bar":1.01325,)"
                                    R"("base_temperature_c":15,"base_pressure_bar":1.01325})")));
  const base::Json calculated = calculated_json(real_definitions(), std::get<Calculated>(outcome));
  for (const auto& [name, result] :
       {std::pair{"content_kg", "mass_kg"}, {"content_m3", "volume_m3"}}) {
    const std::string text = base::write_json(calculated);
    const std::size_t at = text.find("\"" + std::string(result) + "\"");
    ASSERT_NE(at, std::string::npos) << text;
    const std::string before = R"("value":)";
    const std::size_t value = text.find(before, at) + before.size();
    const double exact = std::stod(text.substr(value));
    EXPECT_NEAR(std::stod(value_at(shown, std::string("checks/0/figures/") + name)), exact, 0.00051)
        << text;
  }
}

TEST(CylinderFigures, TellTheLossTheRuleFinds) {
  const TestWorkshop workshop;
  lose_gas(workshop);
  const base::Json shown = history(workshop, "cylinder", "n1");
  EXPECT_EQ(value_at(shown, "checks/0/figures/loss_untold"), R"("first-of-filling")");
  EXPECT_EQ(value_at(shown, "checks/1/figures/loss/verdict"), R"("cannot-tell")");
  EXPECT_EQ(value_at(shown, "checks/3/figures/loss/verdict"), R"("cannot-tell")");
  EXPECT_EQ(value_at(shown, "checks/2/figures/loss_found"), "");
  EXPECT_EQ(value_at(shown, "checks/3/figures/loss_found/loss_kg"), "0.842");
  EXPECT_EQ(value_at(shown, "checks/3/figures/loss_found/expanded_uncertainty_kg"), "0.685");
  EXPECT_EQ(value_at(shown, "checks/3/figures/loss_found/since_entry"),
            value_at(shown, "checks/0/entry/seq"));

  const auto said = judge(workshop.ports(), *workshop.ports().live.view(), at(kNow));
  std::vector<std::string> measured;
  for (const findings::Finding& finding : said->findings) {
    if (finding.authority.rule == "own.gas-loss") {
      measured.push_back(finding.values.front().second.value);
    }
  }
  EXPECT_THAT(measured, ::testing::ElementsAre("0.842"));
}

TEST(CylinderFigures, SayWhatIsMissing) {
  const TestWorkshop workshop;
  workshop.enter(check_of_n1("150", "", "2026-10-02T10:00:00Z"));
  workshop.enter(tell("register-change",
                      R"({"act":"added","thing_class":"cylinder","thing":"a1","name":"A1",)"
                      R"("serial_number":"7","gas":"other","water_capacity_l":50,)"
                      R"("working_pressure_bar":200})",
                      "2026-10-01T08:00:00Z"));
  workshop.enter(check_of_n1("150", "20", "2026-10-02T10:00:00Z", "a1"));
  const base::Json cold = history(workshop, "cylinder", "n1");
  EXPECT_EQ(value_at(cold, "checks/0/figures"),
            R"({"content_untold":"no-temperature","loss_untold":"no-temperature"})");
  const base::Json other = history(workshop, "cylinder", "a1");
  EXPECT_EQ(value_at(other, "checks/0/figures/content_untold"), R"("other-gas")");
}

TEST(CylinderFigures, BeginAnewWhenItIsFilledAndLeaveOutWhatIsStruck) {
  const TestWorkshop workshop;
  workshop.enter(check_of_n1("50", "20", "2026-10-02T10:00:00Z"));
  workshop.enter(tell("cylinder-change",
                      R"({"cylinder":"n1","change":"refilled","gauge_pressure_bar":200,)"
                      R"("ambient_temperature_c":20})",
                      "2026-10-03T10:00:00Z"));
  const std::string slip = workshop.enter(check_of_n1("1", "20", "2026-10-04T10:00:00Z"));
  workshop.enter(strike_out(slip));
  workshop.enter(check_of_n1("199", "20", "2026-10-05T10:00:00Z"));
  const base::Json shown = history(workshop, "cylinder", "n1");
  EXPECT_NE(value_at(shown, "checks/1/figures/content_kg"), "");
  EXPECT_EQ(value_at(shown, "checks/2/figures"), "null");
  EXPECT_EQ(value_at(shown, "checks/3/figures/loss_untold"), R"("first-of-filling")");
}

TEST(CylinderFigures, CountTheUseThatWasLogged) {
  const TestWorkshop workshop;
  workshop.enter(check_of_n1("150", "20", "2026-10-02T10:00:00Z"));
  workshop.enter(tell("gas-use",
                      R"({"cylinder":"n1","unit_count":10,"charge_pressure_bar":14,)"
                      R"("unit_gas_volume_ml":100})",
                      "2026-10-02T12:00:00Z"));
  workshop.enter(check_of_n1("150", "20", "2026-10-05T10:00:00Z"));
  const base::Json shown = history(workshop, "cylinder", "n1");
  // 10 charges of 0.1 L to 14 bar: 14 L at about 1 bar and 20 °C, 1.16 g/L each; 20 % more is
  // allowed for.
  EXPECT_EQ(value_at(shown, "checks/1/figures/used_kg"), "0.016");
  EXPECT_NEAR(std::stod(value_at(shown, "checks/2/figures/loss/logged_use_kg")), 1.2 * 0.0161,
              0.0006);
  EXPECT_LT(std::stod(value_at(shown, "checks/2/figures/loss/loss_kg")), 0);
}

TEST(GaugeFigures, TellErrorsAndTheDayItLeavesItsClass) {
  const TestWorkshop workshop;
  workshop.enter(gauge(R"(,"accuracy_class":"en-1")"));
  // The story of tests/cases/gauge-drift.toml, 74 days earlier.
  workshop.enter(inspection("20", "2025-10-19T10:00:00Z"));
  workshop.enter(inspection("20.1", "2026-01-27T10:00:00Z"));
  workshop.enter(inspection("20.2", "2026-05-07T10:00:00Z"));
  const base::Json early = history(workshop, "gauge", "g1");
  EXPECT_EQ(value_at(early, "forecast"), R"({"untold":"too-few"})");
  workshop.enter(inspection("20.3", "2026-08-15T10:00:00Z"));
  const base::Json shown = history(workshop, "gauge", "g1");
  EXPECT_EQ(value_at(shown, "checks/3/figures/points/0/error_bar"), "0.3");
  EXPECT_EQ(value_at(shown, "checks/3/figures/points/0/limit_bar"), "0.4");
  EXPECT_EQ(value_at(shown, "checks/3/figures/points/0/beyond_limit"), "false");
  EXPECT_EQ(value_at(shown, "forecast/leaves"), R"("2026-11-23")");
  workshop.enter(inspection("20.5", "2026-11-01T10:00:00Z", "20"));
  const base::Json adjusted = history(workshop, "gauge", "g1");
  EXPECT_EQ(value_at(adjusted, "checks/4/figures/points/0/beyond_limit"), "true");
  EXPECT_EQ(value_at(adjusted, "forecast/untold"), R"("adjusted")");
}

TEST(ToolHistory, IsAReportInEveryFormat) {
  const TestWorkshop workshop;
  workshop.enter(gauge(R"(,"accuracy_class":"en-1")"));
  workshop.enter(inspection("20.5", "2026-11-01T10:00:00Z"));
  for (const auto& [format, words] : {std::pair{"json", R"("report":"tool-history","gauge":"g1")"},
                                      {"csv", ",error_bar,0.5,bar"},
                                      {"html", "Error as found at 20 bar over time"},
                                      {"pdf", "%PDF"}}) {
    const auto request = read_report_request(
        {.name = "tool-history", .format = format, .paper = "a4", .subject = "gauge/g1"});
    ASSERT_TRUE(request.ok());
    const auto file = make_report(workshop.ports(), *request);
    ASSERT_TRUE(file.ok()) << file.error().detail;
    EXPECT_THAT(file->bytes, HasSubstr(words));
    EXPECT_EQ(file->file_name, std::string("tool-history-gauge-g1.") + format);
  }
}

TEST(ToolHistory, IsOfAToolOrAGauge) {
  for (const char* subject : {"g1", "cylinder/n1", "gauge/", "/g1"}) {
    const auto request = read_report_request(
        {.name = "tool-history", .format = "pdf", .paper = "a4", .subject = subject});
    ASSERT_FALSE(request.ok()) << subject;
    EXPECT_THAT(request.error().detail,
                HasSubstr("accepted: tool/ and its name in the register, gauge/"));
  }
  const TestWorkshop workshop;
  const auto unknown = read_report_request(
      {.name = "tool-history", .format = "pdf", .paper = "a4", .subject = "gauge/g9"});
  EXPECT_EQ(make_report(workshop.ports(), *unknown).error().code, base::ErrorCode::kNotFound);
}

}  // namespace
}  // namespace benchwarden::workshop
