#include "entries/leaf.h"

#include <gtest/gtest.h>

#include <set>

#include "entries/refusal.h"

namespace benchwarden::entries {
namespace {

class SmallVocabulary : public Vocabulary {
 public:
  [[nodiscard]] std::optional<FieldMeaning> meaning(std::string_view field) const override {
    if (field == "volume_ml")
      return FieldMeaning{FieldType::kQuantity, quantities::find_unit("ml")};
    if (field == "container") return FieldMeaning{FieldType::kId, nullptr};
    if (field == "contamination") return FieldMeaning{FieldType::kCode, nullptr};
    if (field == "note") return FieldMeaning{FieldType::kText, nullptr};
    if (field == "tested_on") return FieldMeaning{FieldType::kDate, nullptr};
    if (field == "loads") return FieldMeaning{FieldType::kList, nullptr};
    return std::nullopt;
  }
};

quantities::Quantity ml(std::int64_t thousandths) {
  return {base::Decimal{thousandths}, quantities::find_unit("ml")};
}

Entry sample() {
  Entry entry;
  entry.content.id = *base::parse_uuid("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  entry.content.kind = "oil-drained";
  entry.content.occurred_at = *base::parse_rfc3339("2026-11-25T09:33:56+01:00");
  entry.content.fields = {{"container", Id{"w1"}},
                          {"contamination", Code{"none"}},
                          {"loads", List{{{{"container", Id{"w1"}}, {"volume_ml", ml(500)}}}}},
                          {"note", Text{"half \"full\""}},
                          {"tested_on", base::CivilDate{2026, 11, 1}},
                          {"volume_ml", ml(62'500)}};
  entry.content.as_read = {{"volume_ml", base::Decimal{2'113}, "fl_oz_us"}};
  entry.signature.person = "p1";
  entry.signature.person_verified = true;
  entry.seq = 5;
  entry.recorded_at = base::parse_rfc3339("2026-11-25T08:33:57.12Z")->instant;
  return entry;
}

TEST(Leaf, IsTheWholeEntryInCanonicalBytes) {
  EXPECT_EQ(
      write_leaf(sample()),
      R"({"as_read":{"volume_ml":{"unit":"fl_oz_us","value":2.113}},"attachments":[],)"
      R"("clock_offset_ms":null,"corrects":null,"device":null,"device_seq":null,"fields":)"
      R"({"container":"w1","contamination":"none","loads":[{"container":"w1","volume_ml":0.5}],)"
      R"("note":"half \"full\"","tested_on":"2026-11-01","volume_ml":62.5},"form_version":1,)"
      R"("format":1,"id":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","kind":"oil-drained",)"
      R"("occurred_at":"2026-11-25T09:33:56+01:00","person":"p1","person_verified":true,)"
      R"("reason":null,"recorded_at":"2026-11-25T08:33:57.120Z","seq":5})");
}

TEST(Leaf, ReadsBackAsTheSameEntry) {
  const std::string leaf = write_leaf(sample());
  const auto entry = read_leaf(leaf, SmallVocabulary{});
  ASSERT_TRUE(entry.ok()) << entry.error().detail;
  EXPECT_EQ(entry->content, sample().content);
  EXPECT_EQ(entry->content.fields, sample().content.fields);
  EXPECT_EQ(entry->recorded_at, sample().recorded_at);
  EXPECT_EQ(write_leaf(*entry), leaf);
}

TEST(Leaf, ThatIsNotExactlyAsWrittenIsDamaged) {
  const std::string leaf = write_leaf(sample());
  const SmallVocabulary vocabulary;
  EXPECT_FALSE(read_leaf(" " + leaf, vocabulary).ok());
  EXPECT_FALSE(read_leaf(leaf.substr(0, leaf.size() - 1), vocabulary).ok());
  for (const auto& [from, to] :
       std::vector<std::pair<std::string, std::string>>{{"62.5", "62.50"},
                                                        {"\"seq\":5", "\"seq\":5.0"},
                                                        {"\"format\":1", "\"format\":2"},
                                                        {"\"kind\"", "\"kinds\""},
                                                        {"2026-11-01", "2026-11-31"},
                                                        {"\"volume_ml\":62.5", "\"volume\":62.5"},
                                                        {"\"none\"", "5"}}) {
    std::string changed = leaf;
    changed.replace(changed.find(from), from.size(), to);
    const auto entry = read_leaf(changed, vocabulary);
    ASSERT_FALSE(entry.ok()) << to;
    EXPECT_EQ(entry.error().code, base::ErrorCode::kDamaged);
  }
}

/// With every member filled, and every sign that is escaped.
Entry full_sample() {
  Entry entry = sample();
  std::string signs;
  for (int code = 0x7F; code >= 0; --code) signs += static_cast<char>(code);
  entry.content.fields[3].value = Text{signs + "\u00E4\u20AC\U0001F600"};
  entry.content.corrects = base::parse_uuid("017f22e2-79b0-7cc3-98c4-dc0c0c073990").value();
  entry.content.device_seq = 999'999'999'999;
  entry.content.reason = "misread";
  entry.content.attachments = {"0a", "0b"};
  // RFC 8785, section 3.2.3: U+1F600 goes before U+FB33, though its bytes do not.
  entry.content.as_read = {{"\U0001F600", base::Decimal{-1}, "psi"},
                           {"\uFB33", base::Decimal{1'000}, "psi"}};
  entry.signature.device = "tablet-1";
  entry.signature.clock_offset_ms = -999'999'999'999;
  return entry;
}

TEST(Leaf, IsTheCanonicalFormOfTheJsonThatIsShown) {
  for (const Entry& entry : {sample(), full_sample()}) {
    EXPECT_EQ(write_leaf(entry), base::write_canonical_json(entry_json(entry)));
  }
}

TEST(Leaf, HoldsEveryMemberThroughReadingAndWriting) {
  const std::string leaf = write_leaf(full_sample());
  const auto entry = read_leaf(leaf, SmallVocabulary{});
  ASSERT_TRUE(entry.ok()) << entry.error().detail;
  EXPECT_EQ(entry->content, full_sample().content);
  EXPECT_EQ(entry->content.as_read, full_sample().content.as_read);
  EXPECT_EQ(entry->content.fields, full_sample().content.fields);
  EXPECT_EQ(entry->signature.device, full_sample().signature.device);
  EXPECT_EQ(entry->signature.clock_offset_ms, full_sample().signature.clock_offset_ms);
}

TEST(Leaf, HasOneFormOnly) {
  const std::string leaf = write_leaf(full_sample());
  const SmallVocabulary vocabulary;
  for (const auto& [from, to] : std::vector<std::pair<std::string, std::string>>{
           {"\\n", "\\u000a"},
           {"\\u001f", "\\u001F"},
           {"/", "\\/"},
           {"misread", "\\u006disread"},
           {"misread", "mis\xFFread"},
           {"misread", "mis\xED\xA0\x80read"},
           {"misread", "mis\nread"},
           {"\"0a\",\"0b\"", "\"0a\",\"0b\","},
           {"\"0a\",\"0b\"", "\"0a\" ,\"0b\""},
           {"\"container\":\"w1\",\"contamination\":\"none\"",
            "\"contamination\":\"none\",\"container\":\"w1\""},
           {"\"contamination\":\"none\"", "\"container\":\"w1\""},
           {"\"as_read\":{",
            "\"as_read\":{\"\":{\"unit\":\"psi\",\"value\":1},"
            "\"\":{\"unit\":\"psi\",\"value\":1},"},
           {"\"device\":\"tablet-1\",", ""},
           {"\"person_verified\":true", "\"person_verified\":1"},
           {"\"form_version\":1", "\"form_version\":4294967297"},
           {",\"seq\":5}", "}"},
           {",\"seq\":5}", ",\"seq\":5,\"then\":1}"},
           {",\"seq\":5}", ",\"seq\":5}}"}}) {
    std::string changed = leaf;
    ASSERT_NE(changed.find(from), std::string::npos) << from;
    changed.replace(changed.find(from), from.size(), to);
    const auto entry = read_leaf(changed, vocabulary);
    ASSERT_FALSE(entry.ok()) << to;
    EXPECT_EQ(entry.error().code, base::ErrorCode::kDamaged);
  }
  for (std::size_t length = 0; length < leaf.size(); ++length) {
    EXPECT_FALSE(read_leaf(std::string_view(leaf).substr(0, length), vocabulary).ok()) << length;
  }
}

TEST(Content, IsTheSameInWhateverOrderItsFieldsStand) {
  Content other = sample().content;
  std::swap(other.fields.front(), other.fields.back());
  EXPECT_EQ(other, sample().content);
  other.fields.pop_back();
  EXPECT_FALSE(other == sample().content);
}

TEST(RefusalCodes, HaveDistinctNumbersAndKeysInOrder) {
  std::set<std::string_view> keys;
  int last = 0;
  for (const RefusalCode code : all_refusal_codes()) {
    EXPECT_GT(static_cast<int>(code), last);
    last = static_cast<int>(code);
    EXPECT_TRUE(keys.insert(refusal_key(code)).second);
  }
  // Literals on purpose: the API's clients know these, so a renaming must fail here.
  EXPECT_EQ(refusal_key(RefusalCode::kNeedsConfirmation), "needs_confirmation");
  EXPECT_EQ(static_cast<int>(RefusalCode::kRetiredField), 32);
}

}  // namespace
}  // namespace benchwarden::entries
