#include "workshop/rule_adoption.h"

#include <gmock/gmock.h>

#include "workshop/finding_views.h"
#include "workshop/judgement.h"
#include "workshop/pack_views.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const std::string kHead = R"(pack = "ours"
title = "Our rules"
edition = "2026-11-01"
remarks = "Stricter than what the law asks for."
)";

std::string clock_of(const std::string& days) {
  return kHead + R"([[rules]]
id = "ours.clock"
kind = "storage-clock"
citation = "our permit, condition 4"
edition = "2026"
confidence = "from-memory"
sentence = "So many days."
figures = { limit = { value = ")" +
         days + R"(", unit = "d" } }
)";
}

class RuleAdoption : public ::testing::Test {
 protected:
  TestWorkshop shop_;

  void name_pack(const std::string& pack) {
    shop_.enter(tell("register-change",
                     R"({"thing_class":"workshop","thing":"site","act":"changed","rule_pack":")" +
                         pack + "\"}"));
  }
  /// "base england" of each adoption in the book, in its order.
  [[nodiscard]] std::vector<std::string> adopted() const {
    book::Selection wanted;
    wanted.kind = "rules-adopted";
    std::vector<std::string> found;
    const auto entries = shop_.ports().book.select(wanted);
    for (const entries::Entry& entry : *entries) {
      const entries::Fields& fields = entry.content.fields;
      found.push_back(entries::find_field_as<entries::Code>(fields, "layer")->slug + " " +
                      entries::find_field_as<entries::Text>(fields, "pack")->text);
    }
    return found;
  }
  LocalPackOutcome put(const std::string& text) {
    return put_local_pack(shop_.ports(), kManager, text);
  }
  /// The limits that judged, by what the findings of our own rule say.
  [[nodiscard]] std::string limits(const std::optional<Viewpoint>& view) const {
    const auto shown = show_findings(shop_.ports(), view);
    EXPECT_TRUE(shown.ok());
    std::string found;
    for (const base::Json& one : *shown->find("findings")->array()) {
      if (*one.find("rule")->string() != "ours.clock") continue;
      found += value_at(one, "values/limit/value") + value_at(one, "pack_digest");
    }
    return found;
  }
};

TEST_F(RuleAdoption, KeepsTheTextOfEveryPackInForceOnce) {
  ASSERT_TRUE(adopt_packs(shop_.ports()).ok());
  EXPECT_THAT(adopted(), ElementsAre("base workshop", "base standards"));
  ASSERT_TRUE(adopt_packs(shop_.ports()).ok());
  EXPECT_EQ(adopted().size(), 2U);
  const auto state = shop_.ports().live.view();
  const auto pack = adopted_pack(*state, "workshop");
  ASSERT_TRUE(pack);
  const auto text = shop_.ports().book.attachment(*base::digest_from_hex(pack->digest));
  ASSERT_TRUE(text.ok());
  EXPECT_EQ(*text, bytes_of("reports/rules/packs/workshop.toml"));
}

TEST_F(RuleAdoption, FollowsTheRegister) {
  name_pack("england");
  EXPECT_THAT(adopted(), ElementsAre("base workshop", "base standards", "base england"));
  name_pack("us-federal");
  EXPECT_EQ(adopted().back(), "base us-federal");
}

TEST_F(RuleAdoption, RecordsNothingBeforeASiteIsEntered) {
  const TestWorkshop empty(TestWorkshop::Register::kEmpty);
  ASSERT_TRUE(adopt_packs(empty.ports()).ok());
  EXPECT_EQ(empty.size(), 0U);
}

TEST_F(RuleAdoption, AdoptsWhatAnotherEditionOfTheProgramSays) {
  ASSERT_TRUE(adopt_packs(shop_.ports()).ok());
  const std::string before = adopted_pack(*shop_.ports().live.view(), "standards")->digest;
  const std::string other = bytes_of("reports/rules/packs/standards.toml") + "# another edition\n";
  const auto files = files_with("reports/rules/packs/standards.toml", other);
  const auto definitions = load_definitions(files, font_bytes(), FileOrigin::kBuiltIn);
  ASSERT_TRUE(definitions.ok());
  shop_.close();
  const FewNames names;
  const auto open = OpenBook::open(shop_.folder(), *definitions, shop_.clock, names);
  ASSERT_TRUE(open.ok());
  const Ports& ports = (*open)->ports();
  // Until it is adopted, the text the book has judges, though the program has another.
  EXPECT_EQ((*rules_in_force(ports, *ports.live.view()))->packs().back().digest, before);
  ASSERT_TRUE(adopt_packs(ports).ok());
  EXPECT_EQ((*rules_in_force(ports, *ports.live.view()))->packs().back().digest,
            base::to_hex(base::sha256(other)));
  EXPECT_EQ((*rules_in_force(ports, *refold(ports.book, definitions->catalog, {13, {INT64_MAX}})))
                ->packs()
                .back()
                .digest,
            before);
}

TEST_F(RuleAdoption, PutsALocalPackOnTopAndJudgesThePastByWhatWasInForceThen) {
  shop_.enter(drain("w1", "900", "2026-10-01T09:00:00+02:00"));
  EXPECT_EQ(limits(std::nullopt), "");
  ASSERT_TRUE(std::holds_alternative<book::Receipt>(put(clock_of("30"))));
  const std::uint64_t first = shop_.size();
  const std::string by_first = limits(std::nullopt);
  EXPECT_EQ(by_first, "\"30\"\"" + base::to_hex(base::sha256(clock_of("30"))) + "\"");
  ASSERT_TRUE(std::holds_alternative<book::Receipt>(put(clock_of("40"))));
  EXPECT_THAT(limits(std::nullopt), HasSubstr("\"40\""));
  EXPECT_EQ(limits(Viewpoint{first, base::Instant{INT64_MAX}}), by_first);
  EXPECT_EQ(limits(Viewpoint{first - 1, base::Instant{INT64_MAX}}), "");
}

TEST_F(RuleAdoption, WithdrawsALocalPackByAnEmptyText) {
  shop_.enter(drain("w1", "900", "2026-10-01T09:00:00+02:00"));
  EXPECT_EQ(std::get<base::Error>(put("")).code, base::ErrorCode::kConflict);
  ASSERT_TRUE(std::holds_alternative<book::Receipt>(put(clock_of("30"))));
  EXPECT_EQ(*show_local_pack(shop_.ports())->find("toml")->string(), clock_of("30"));
  ASSERT_TRUE(std::holds_alternative<book::Receipt>(put("")));
  EXPECT_EQ(limits(std::nullopt), "");
  EXPECT_TRUE(show_local_pack(shop_.ports())->is_null());
}

TEST_F(RuleAdoption, TakesNothingOfAFaultyPack) {
  const std::uint64_t before = shop_.size();
  const auto faults = [&](const std::string& text) {
    const auto outcome = put(text);
    const auto* found = std::get_if<base::FileFaults>(&outcome);
    return found == nullptr ? "" : base::format_faults(*found);
  };
  EXPECT_THAT(faults(clock_of("many")), HasSubstr("local pack:"));
  EXPECT_THAT(faults(clock_of("many")), HasSubstr("'many' is no decimal"));
  EXPECT_THAT(faults("pack = "), HasSubstr("local pack:1: "));
  EXPECT_THAT(faults(bytes_of("reports/rules/packs/england.toml")),
              HasSubstr("pack 'england' is built in; accepted: another name"));
  EXPECT_EQ(shop_.size(), before);
  EXPECT_THAT(adopted(), IsEmpty());
}

TEST_F(RuleAdoption, StopsTheStartWhereTheBooksTextIsNoPack) {
  ASSERT_TRUE(std::holds_alternative<book::Receipt>(put(clock_of("30"))));
  const std::string digest = base::to_hex(base::sha256(clock_of("30")));
  shop_.close();
  testing::tamper(shop_.folder(),
                  "UPDATE attachment SET bytes "
                  "= CAST('pack = ' AS BLOB) WHERE digest = x'" +
                      digest + "'");
  shop_.open();
  const auto adopted = adopt_packs(shop_.ports());
  ASSERT_FALSE(adopted.ok());
  EXPECT_EQ(adopted.error().code, base::ErrorCode::kDamaged);
  EXPECT_THAT(adopted.error().detail, HasSubstr(digest));
}

TEST_F(RuleAdoption, NamesLineAndReasonOfAPackThatThisProgramCannotRead) {
  // As another edition of the program may have kept it.
  const std::string text = kHead + "[[rules]]\nid = \"x\"\nkind = \"moon-phase\"\n";
  ASSERT_TRUE(shop_.ports().book.keep_attachment(text).ok());
  const auto pack = shop_.ports().packs.pack(base::to_hex(base::sha256(text)));
  ASSERT_FALSE(pack.ok());
  EXPECT_THAT(pack.error().detail, HasSubstr(":5: there is no kind of rule 'moon-phase'"));
  const std::string endless = clock_of("99999999999");
  ASSERT_TRUE(shop_.ports().book.keep_attachment(endless).ok());
  const auto beyond = shop_.ports().packs.pack(base::to_hex(base::sha256(endless)));
  ASSERT_FALSE(beyond.ok());
  EXPECT_THAT(beyond.error().detail,
              HasSubstr(":12: figure 'limit' is '99999999999', accepted: a whole number from 0"));
}

}  // namespace
}  // namespace benchwarden::workshop
