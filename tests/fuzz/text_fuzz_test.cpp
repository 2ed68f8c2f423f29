// What libFuzzer runs, over the packs and a register as they are and with seeded mistakes.
#include <gtest/gtest.h>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "fuzz/drive_text.h"
#include "rules/rule_pack.h"
#include "workshop/form_entries.h"
#include "workshop/register_import.h"

namespace benchwarden::fuzz {
namespace {

std::vector<std::string> texts_in(const std::string& folder) {
  std::vector<std::string> texts;
  for (const auto& item :
       std::filesystem::directory_iterator(std::string(BENCHWARDEN_TOP "/") + folder)) {
    std::ifstream stream(item.path(), std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
  }
  return texts;
}

/// For each file; more than usual by the environment.
int rounds() {
  const char* wanted = std::getenv("BENCHWARDEN_FUZZ_ROUNDS");
  return wanted == nullptr ? 150 : std::atoi(wanted);
}

/// Mistakes as people and disks make them.
class Mistakes {
 public:
  std::string in(std::string text) {
    for (std::uint64_t i = 0, count = 1 + random_() % 3; i < count && !text.empty(); ++i) {
      make_one(text);
    }
    return text;
  }

 private:
  void make_one(std::string& text) {
    // clang-format off
    static constexpr std::array<const char*, 13> kPieces{
        "\"", "]", "{", "=", "\n", "-1", "99999999999999", "0.0005", "[[rules]]\n", "\xff", "''",
        "[=", "kind = \"advice\"\n"};
    // clang-format on
    const std::size_t at = random_() % text.size();
    switch (random_() % 4) {
      case 0:
        text.erase(at, 1 + random_() % 40);
        break;
      case 1:
        text.insert(at, kPieces.at(random_() % kPieces.size()));
        break;
      case 2:
        text.insert(at, text.substr(random_() % text.size(), random_() % 200));
        break;
      default:
        text.at(at) = static_cast<char>(random_() % 256);
    }
  }
  std::mt19937_64 random_{9};
};

bool is_read(const workshop::Ports& ports, const std::string& text) {
  const auto outcome =
      workshop::import_register(ports, workshop::kManager, text, workshop::ImportMode::kDryRun);
  return std::holds_alternative<std::vector<workshop::ImportedThing>>(outcome);
}

TEST(TextFuzz, RulePacksAreReadOrRefusedAndJudge) {
  workshop::TestWorkshop workshop;
  workshop::FormEntries(workshop, 1).send(200);
  const tallies::State state = *workshop.ports().live.view();
  const rules::Scene scene(state, workshop.clock.now(), workshop::zone_of(state));
  Mistakes mistakes;
  int read = 0;
  int refused = 0;
  for (const std::string& pack : texts_in("reports/rules/packs")) {
    EXPECT_TRUE(rules::read_pack(pack, "pack.toml").ok());
    for (int round = 0; round < rounds(); ++round) {
      const std::string text = mistakes.in(pack);
      ASSERT_EQ(drive_pack(scene, text), "") << text;
      ++(rules::read_pack(text, "pack.toml").ok() ? read : refused);
    }
  }
  EXPECT_GT(read, 20);
  EXPECT_GT(refused, 100);
}

TEST(TextFuzz, RegisterFilesAreReadOrRefused) {
  const workshop::TestWorkshop workshop;
  Mistakes mistakes;
  int read = 0;
  for (const std::string& file : texts_in("tests/fuzz/register")) {
    read += is_read(workshop.ports(), file) ? 1 : 0;
    for (int round = 0; round < rounds(); ++round) {
      const std::string text = mistakes.in(file);
      ASSERT_EQ(drive_register(workshop.ports(), text), "") << text;
    }
  }
  EXPECT_EQ(read, 1) << "one file is good, one is not";
}

}  // namespace
}  // namespace benchwarden::fuzz
