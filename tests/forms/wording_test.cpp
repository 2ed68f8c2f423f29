#include "forms/wording.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "forms/envelope.h"
#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::HasSubstr;

constexpr const char* kPath = "forms/wording/refusals.toml";

/// A sentence for every code but `left_out`.
std::string all_but(entries::RefusalCode left_out) {
  std::string toml;
  for (const entries::RefusalCode code : entries::all_refusal_codes()) {
    if (code == left_out) continue;
    const bool asks = code == entries::RefusalCode::kNeedsConfirmation;
    toml += std::string(entries::refusal_key(code)) +
            (asks ? " = \"{field}: {why}\"\n" : " = \"{field}: {value}, {accepted}\"\n");
  }
  return toml;
}

const std::string kReasons = [] {
  std::string toml = "[confirmations]\n";
  for (const entries::Unusual unusual : entries::all_unusual()) {
    toml += std::string(entries::unusual_key(unusual)) + " = \"{thing}: {value}, {accepted}\"\n";
  }
  return toml;
}();

const std::string kLabels =
    "[labels]\nrow = \"{value}|{field}\"\ncharacters = \"C\"\nrows = \"R\"\nto = \"T\"\n" + [] {
      std::string toml;
      for (const std::string_view member : kEnvelopeMembers) {
        toml += std::string(member) + " = \"M\"\n";
      }
      return toml;
    }();

std::string wording_faults(const std::string& toml, const std::string& labels = kLabels,
                           const std::string& reasons = kReasons) {
  const std::string whole = toml + reasons + labels;
  const auto wording = Wording::load({{kPath, whole}});
  return wording ? "" : base::format_faults(wording.error());
}

TEST(Wording, WantsASentenceForEveryCode) {
  for (const entries::RefusalCode code : entries::all_refusal_codes()) {
    EXPECT_THAT(wording_faults(all_but(code)),
                HasSubstr("'" + std::string(entries::refusal_key(code)) + "' is missing"));
  }
}

/// One a line, so also the number of the last line before [labels].
const std::size_t kSentences = entries::all_refusal_codes().size();

TEST(Wording, RefusesASentenceWithoutACode) {
  const std::string toml =
      all_but(entries::RefusalCode::kMissing) + "missing = \"x\"\nodd = \"y\"\n";
  EXPECT_THAT(wording_faults(toml),
              HasSubstr(":" + std::to_string(kSentences + 1) + ": 'odd' is not known here"));
}

TEST(Wording, RefusesAnUnknownPlaceholder) {
  const std::string toml =
      all_but(entries::RefusalCode::kMissing) + "missing = \"{who} is gone\"\n";
  EXPECT_EQ(wording_faults(toml), std::string(kPath) + ":" + std::to_string(kSentences) +
                                      ": 'missing' has a placeholder other than {field}, {value}, "
                                      "{accepted}\n");
}

TEST(Wording, IsMissedWhenTheFileIsNotThere) {
  const auto wording = Wording::load({});
  ASSERT_FALSE(wording.ok());
  EXPECT_EQ(base::format_faults(wording.error()), std::string(kPath) + ": the file is missing\n");
}

TEST(Wording, WantsALabelForEveryMember) {
  const std::string toml = all_but(entries::RefusalCode::kMissing) + "missing = \"x\"\n";
  EXPECT_EQ(wording_faults(toml), "");
  EXPECT_THAT(wording_faults(toml, ""), HasSubstr("[labels] is missing"));
  EXPECT_THAT(wording_faults(toml, "[labels]\nrow = \"r\"\n"),
              HasSubstr("'occurred_at' is missing"));
  EXPECT_THAT(wording_faults(toml, kLabels + "odd = \"y\"\n"),
              HasSubstr("'odd' is not known here"));
}

TEST(Wording, WantsASentenceForEveryReasonToAsk) {
  const std::string toml = all_but(entries::RefusalCode::kMissing) + "missing = \"x\"\n";
  EXPECT_THAT(wording_faults(toml, kLabels, ""), HasSubstr("[confirmations] is missing"));
  for (const entries::Unusual unusual : entries::all_unusual()) {
    const std::string key(entries::unusual_key(unusual));
    std::string without = kReasons;
    without.insert(without.find("\n" + key + " = ") + 1, "x-");
    EXPECT_THAT(wording_faults(toml, kLabels, without), HasSubstr("'" + key + "' is missing"))
        << key;
  }
  EXPECT_THAT(wording_faults(toml, kLabels, kReasons + "odd = \"y\"\n"),
              HasSubstr("'odd' is not known here"));
  EXPECT_THAT(wording_faults(toml, kLabels, "[confirmations]\namount = \"{field}\"\n"),
              HasSubstr("'amount' has a placeholder other than {value}, {accepted}, {thing}"));
}

TEST(Wording, FillsInLabelValueAndWhatIsAccepted) {
  const std::string toml = all_but(entries::RefusalCode::kMissing) +
                           "missing = \"{field}|{value}|{accepted}\"\n" + kReasons + kLabels;
  const auto wording = Wording::load({{kPath, toml}});
  ASSERT_TRUE(wording.ok());
  const auto sentence = [&](const std::string& pointer) {
    return wording->sentence({pointer, entries::RefusalCode::kMissing, "v", "a"},
                             {real_catalog().find("collection")});
  };
  EXPECT_EQ(sentence("/fields/loads/0/volume_ml"), "1|Volume|v|a");
  EXPECT_EQ(sentence("/kind"), "M|v|a");
  EXPECT_EQ(sentence(""), "|v|a");
}

TEST(Wording, NamesFieldsByTheirLabels) {
  const auto wording = Wording::load(real_files());
  ASSERT_TRUE(wording.ok());
  const auto field = [&](const std::string& pointer, const std::string& kind) {
    const std::string sentence =
        wording->sentence({pointer, entries::RefusalCode::kAlreadyStruck, "x", ""},
                          {real_catalog().find("correction"), real_catalog().find(kind)});
    return sentence.substr(0, sentence.find(':'));
  };
  EXPECT_EQ(field("/fields/container", "oil-drained"), "Container");
  EXPECT_EQ(field("/fields/container", "rag-bin"), "Bin");
  EXPECT_EQ(field("/fields/volume_ml/unit", "oil-drained"), "Volume, unit");
  EXPECT_EQ(field("/fields/loads/1/volume_ml", "collection"), "Row 2, Volume");
  EXPECT_EQ(field("/fields/loads/1", "collection"), "Row 2, Containers");
  EXPECT_EQ(field("/fields/loads/0/shade", "collection"), "Row 1, shade");
  EXPECT_EQ(field("/fields/shade", "oil-drained"), "shade");
  EXPECT_EQ(field("/occurred_at", "oil-drained"), "When it happened");
  EXPECT_EQ(field("/confirmed/0", "oil-drained"), "Confirmed values");
  EXPECT_EQ(field("/colour", "oil-drained"), "colour");
}

/// The sentence of the only refusal.
std::string said_of(const std::string& submission) {
  const World world;
  const auto wording = Wording::load(real_files());
  const auto result = validate(real_catalog(), json(submission), world);
  if (!wording.ok() || result.ok() || result.error().size() != 1) return "";
  return wording->sentence(result.error()[0], {real_catalog().find("oil-drained")});
}

TEST(Wording, SaysWhichOfTheReasonsItIs) {
  EXPECT_EQ(said_of(drained_and(R"(,"note":" ")")), "Note is blank. Accepted: 1 … 500 characters.");
  EXPECT_EQ(said_of(drained_and(R"(,"note":"a\u202Eb")")),
            "Note holds U+202E, a sign that cannot be seen. Accepted: signs that can be seen, in "
            "one line.");
  EXPECT_EQ(said_of(drained_and("", R"(,"attachments":["E3B0"])")),
            "Attachments: 'E3B0' is not in the right form. Accepted: 64 × 0-9a-f.");
  EXPECT_EQ(said_of(submit("oil-drained", R"({"container":"w1","volume_ml":"100"})")),
            "Volume: '100' was given as text, and a number is wanted. Accepted: 0.001 … "
            "20\u202F000\u00A0mL.");
  EXPECT_EQ(said_of(drained_and(",\"job_reference\":\"" + std::string(61, 'x') + "\"")),
            "Job: this text is too long. Accepted: 1 … 60 characters.");
  EXPECT_THAT(said_of(drained_and("", R"(,"confirmed":["note","nix"])")),
              testing::StartsWith("Confirmed values: this form has no field 'nix'. Accepted: "));
  EXPECT_THAT(said_of(submit("collection", R"({"collection":"c","stage":"weighed","loads":[]})")),
              testing::EndsWith("is missing. Accepted: 1 … 40 rows."));
}

TEST(Wording, HasASentenceForEachRefusal) {
  const auto wording = Wording::load(real_files());
  ASSERT_TRUE(wording.ok()) << base::format_faults(wording.error());
  const std::vector<const Definition*> drained_form{real_catalog().find("oil-drained")};
  EXPECT_EQ(wording->sentence({"/fields/volume_ml", entries::RefusalCode::kImpossible, "25 000 mL",
                               "0.001 … 20 000 mL"},
                              drained_form),
            "Volume: 25 000 mL cannot be right. Accepted: 0.001 … 20 000 mL.");
  EXPECT_EQ(wording->sentence(
                {"/kind", entries::RefusalCode::kNotAllowed, "oil-drained", "technician, manager"},
                drained_form),
            "Your role may not record 'oil-drained'. Accepted: technician, manager.");
}

}  // namespace
}  // namespace benchwarden::forms
