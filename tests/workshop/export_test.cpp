#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <random>

#include "forms/schema.h"
#include "workshop/export_book.h"
#include "workshop/export_tables.h"
#include "workshop/import_book.h"
#include "workshop/random_entries.h"
#include "workshop/report.h"
#include "workshop/sealing.h"
#include "workshop/upkeep.h"
#include "workshop/verify_export.h"

namespace benchwarden::workshop {
namespace {

namespace fs = std::filesystem;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

std::string bytes_at(const fs::path& file) {
  auto bytes = book::read_exported(file);
  if (!bytes) ADD_FAILURE() << bytes.error().detail;
  return bytes ? *bytes : "";
}

void put(const fs::path& file, const std::string& bytes) {
  std::ofstream stream(file, std::ios::binary | std::ios::trunc);
  stream << bytes;
}

class Export : public ::testing::Test {
 protected:
  /// Made-up entries, an issued report, and text a spreadsheet could run.
  void fill(std::uint64_t seed, int entries) {
    RandomEntries(workshop_, seed).send(entries);
    workshop_.enter(
        tell("register-change", R"({"thing_class":"container","thing":"w1","act":"changed",)"
                                R"("location":"=1+)" +
                                    std::to_string(seed) + R"(, \"Bay\""})"));
    keep_attachment();
  }
  void keep_attachment() {
    const std::string bytes = "figures";
    const std::string name = base::to_hex(base::sha256(bytes));
    ASSERT_TRUE(workshop_.ports().book.keep_attachment(bytes).ok());
    workshop_.enter(tell("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":150})",
                         base::format_rfc3339_utc(workshop_.clock.now()),
                         R"(,"attachments":[")" + name + R"("])"));
    attachment_ = name;
  }
  void export_it() {
    const auto exported = export_book(workshop_.folder(), out(), real_definitions());
    ASSERT_TRUE(exported.ok()) << exported.error().detail;
    EXPECT_EQ(exported->entries, workshop_.size());
    EXPECT_EQ(exported->attachments, 1U);
  }
  book::ExportFaults import_faults(const fs::path& to) {
    const auto outcome = import_book(out(), to, real_definitions(), workshop_.clock);
    if (const auto* error = std::get_if<base::Error>(&outcome)) return {error->detail};
    const auto* faults = std::get_if<book::ExportFaults>(&outcome);
    return faults == nullptr ? book::ExportFaults{} : *faults;
  }
  [[nodiscard]] fs::path out() const { return place_.path() / "out"; }
  [[nodiscard]] fs::path anew() const { return place_.path() / "anew"; }
  std::vector<std::string> lying_about() const {
    std::vector<std::string> names;
    for (const auto& item : fs::directory_iterator(place_.path())) {
      names.push_back(item.path().filename().string());
    }
    return names;
  }

  TestWorkshop workshop_;
  testing::TemporaryFolder place_;
  std::string attachment_;
};

TEST_F(Export, AndImportGiveTheSameHeadAndTheSameTallies) {
  for (const std::uint64_t seed : {std::random_device{}(), 7U}) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    if (fs::exists(out())) fs::remove_all(out());
    if (fs::exists(anew())) fs::remove_all(anew());
    fill(seed, 150);
    export_it();
    ASSERT_THAT(import_faults(anew()), IsEmpty());
    EXPECT_THAT(lying_about(), ::testing::UnorderedElementsAre("out", "anew"));

    FewNames names;
    const auto open = OpenBook::open(anew(), real_definitions(), workshop_.clock, names);
    ASSERT_TRUE(open.ok()) << open.error().detail;
    EXPECT_EQ((*open)->ports().book.head(), workshop_.ports().book.head());
    EXPECT_EQ((*open)->ports().live.view()->snapshot(), workshop_.ports().live.view()->snapshot());
    EXPECT_EQ(*(*open)->ports().book.attachment(*base::digest_from_hex(attachment_)), "figures");
    const auto verified = verify_book(anew(), real_definitions());
    ASSERT_TRUE(verified.ok());
    EXPECT_THAT(verified->faults, IsEmpty());
  }
}

TEST_F(Export, OfAnImportIsTheSameByteForByte) {
  fill(3, 40);
  export_it();
  ASSERT_THAT(import_faults(anew()), IsEmpty());
  const fs::path again = place_.path() / "again";
  ASSERT_TRUE(export_book(anew(), again, real_definitions()).ok());
  EXPECT_EQ(bytes_at(again / book::kExportedDigests), bytes_at(out() / book::kExportedDigests));
}

TEST_F(Export, OfAnEmptyBookGivesAnEmptyBook) {
  TestWorkshop empty(TestWorkshop::Register::kEmpty);
  ASSERT_TRUE(export_book(empty.folder(), out(), real_definitions()).ok());
  ASSERT_THAT(import_faults(anew()), IsEmpty());
  EXPECT_EQ(verify_book(anew(), real_definitions())->head.size, 0U);
}

TEST_F(Export, WithOneBitTurnedAnywhereIsRefusedAndLeavesNothing) {
  fill(11, 12);
  export_it();
  std::mt19937_64 random(std::random_device{}());
  std::vector<fs::path> files;
  for (const auto& item : fs::recursive_directory_iterator(out())) {
    if (item.is_regular_file()) files.push_back(item.path());
  }
  for (int round = 0; round < 120; ++round) {
    // Every file in turn, and then the entries themselves.
    const auto turn = static_cast<std::size_t>(round);
    const fs::path file = turn < files.size() ? files[turn] : out() / book::kExportedEntries;
    const std::string whole = bytes_at(file);
    std::string turned = whole;
    const std::size_t at = random() % turned.size();
    const auto bit = static_cast<unsigned>(random() % 8);
    turned[at] = static_cast<char>(static_cast<unsigned char>(turned[at]) ^ (1U << bit));
    put(file, turned);
    EXPECT_THAT(import_faults(anew()), Not(IsEmpty())) << file << " byte " << at << " bit " << bit;
    EXPECT_THAT(lying_about(), ElementsAre("out"));
    put(file, whole);
  }
  EXPECT_THAT(import_faults(anew()), IsEmpty()) << "nothing was left turned";
}

TEST_F(Export, NamesDamagedLines) {
  fill(5, 6);
  export_it();
  const fs::path file = out() / book::kExportedEntries;
  const std::string whole = bytes_at(file);
  std::string damaged = whole;
  damaged.insert(whole.find('\n') + 2, " ");
  put(file, damaged);
  EXPECT_THAT(import_faults(anew()), Contains(StartsWith("entries.jsonl:2: ")));

  put(file, whole.substr(0, whole.size() - 1));
  EXPECT_THAT(import_faults(anew()), Contains(HasSubstr("has no end: the file is cut off")));

  put(file, whole.substr(whole.find('\n') + 1));
  EXPECT_THAT(import_faults(anew()), Contains("entries.jsonl:1: is entry 2; entry 1 belongs here"));

  const std::size_t last = whole.rfind('\n', whole.size() - 2);
  put(file, whole.substr(0, last + 1));
  EXPECT_THAT(import_faults(anew()), Contains(HasSubstr("are needed")));
}

TEST_F(Export, NamesAnAttachmentThatIsMissing) {
  fill(5, 1);
  export_it();
  fs::remove(out() / book::kExportedAttachments / attachment_);
  EXPECT_THAT(import_faults(anew()), Contains("attachments/" + attachment_ +
                                              ": is missing or cannot be read; an entry names it"));
}

TEST_F(Export, IsHeldToItsEntriesWhateverItsDigestsSay) {
  fill(5, 6);
  ASSERT_TRUE(seal_book(workshop_.ports()));
  export_it();
  const auto faults_with = [&](const fs::path& name, const std::string& bytes) {
    const std::string whole = bytes_at(out() / name);
    put(out() / name, bytes);
    put(out() / book::kExportedDigests, book::format_digests(*book::digests_below(out())));
    auto faults = verify_export(out(), real_definitions(), std::nullopt).faults;
    put(out() / name, whole);
    put(out() / book::kExportedDigests, book::format_digests(*book::digests_below(out())));
    return faults;
  };
  const fs::path name = "tables/cylinder-check.csv";
  const std::string table = bytes_at(out() / name);
  EXPECT_THAT(faults_with(name, table), IsEmpty());
  std::string lower = table;
  lower.replace(lower.rfind("150"), 3, "140");
  EXPECT_THAT(faults_with(name, lower), ElementsAre(AllOf(StartsWith("tables/cylinder-check.csv:"),
                                                          HasSubstr("is not what entry "))));
  const std::size_t last_line = table.rfind("\r\n", table.size() - 3) + 2;
  EXPECT_THAT(faults_with(name, table + table.substr(last_line)),
              ElementsAre(HasSubstr("is a line that no entry gives")));
  EXPECT_THAT(faults_with(name, table.substr(0, last_line)),
              ElementsAre(HasSubstr("is not what entry ")));
  for (const auto file : {book::kExportedCheckpoint, book::kExportedNote, book::kExportedKey}) {
    EXPECT_THAT(faults_with(file, bytes_at(out() / file) + "\n"),
                ElementsAre(StartsWith(std::string(file) + ": is not that of ")));
  }
  fs::remove(out() / name);
  put(out() / book::kExportedDigests, book::format_digests(*book::digests_below(out())));
  EXPECT_THAT(verify_export(out(), real_definitions(), std::nullopt).faults,
              ElementsAre(HasSubstr("tables/cylinder-check.csv:1: is missing; entry ")));
}

TEST_F(Export, OfAnOlderProgramIsHeldByTheColumnsItHas) {
  fill(5, 6);
  export_it();
  const fs::path name = out() / "tables/cylinder-check.csv";
  const auto* form = real_definitions().catalog.find("cylinder-check");
  auto columns = forms::csv_columns(*form);
  columns.pop_back();
  std::string table = heading_line(columns);
  ASSERT_TRUE(workshop_.ports().book.each(1, [&](const entries::Entry& entry) {
    if (entry.content.kind == form->kind) table += table_line(entry, columns);
    return base::Status<>(base::Done{});
  }));
  put(name, table);
  put(out() / book::kExportedDigests, book::format_digests(*book::digests_below(out())));
  const Verified verified = verify_export(out(), real_definitions(), std::nullopt);
  EXPECT_THAT(verified.faults, IsEmpty());
  EXPECT_THAT(verified.notes, Contains("note: tables/cylinder-check.csv has other columns than "
                                       "this program writes"));
}

TEST_F(Export, TakesNoFolderThatIsThere) {
  fill(5, 1);
  fs::create_directory(out());
  const auto refused = export_book(workshop_.folder(), out(), real_definitions());
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, base::ErrorCode::kConflict);
  fs::remove(out());
  export_it();
  fs::create_directory(anew());
  put(anew() / "access.db", "people");
  EXPECT_THAT(import_faults(anew()), ElementsAre(HasSubstr("is there and is no empty folder")));
  EXPECT_EQ(bytes_at(anew() / "access.db"), "people");
  fs::remove(anew() / "access.db");
  EXPECT_THAT(import_faults(anew()), IsEmpty());
}

TEST_F(Export, HoldsTablesWithTheGuardAndAReadmeOfTheirColumns) {
  fill(5, 1);
  export_it();
  const std::string table = bytes_at(out() / book::kExportedTables / "register-change.csv");
  EXPECT_THAT(table, StartsWith("seq,id,kind,form_version,occurred_at,recorded_at,person,"
                                "person_verified,device,corrects,reason,thing_class,thing,act,"));
  EXPECT_THAT(table, HasSubstr("\"'=1+5, \"\"Bay\"\"\""));
  const std::string readme = bytes_at(out() / book::kExportedReadme);
  for (const forms::Definition& form : real_definitions().catalog.definitions()) {
    EXPECT_THAT(readme, HasSubstr("\ntables/" + form.kind + ".csv: " + form.title + "\n"));
    for (const forms::FieldDefinition& field : form.fields) {
      EXPECT_THAT(readme, HasSubstr("\n  " + field.name + ": " + field.label + "; "));
    }
  }
  EXPECT_THAT(readme, HasSubstr("\n  volume_ml: Volume; mL; number\n"));
}

}  // namespace
}  // namespace benchwarden::workshop
