#include "access/access_fixture.h"

#include <stdlib.h>

#include <fstream>
#include <iterator>
#include <utility>

#include "sqlite/database.h"

namespace benchwarden::access {

Settings quick_settings() {
  Settings settings;
  settings.hash_cost.passes = 1;
  settings.hash_cost.memory_bytes = std::size_t{8} * 1024;
  settings.hash_cost.wait_ms_max = 60'000;
  return settings;
}

AccessTest::AccessTest() {
  std::string name = (std::filesystem::temp_directory_path() / "access-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) ADD_FAILURE() << "no folder for the test";
  folder_ = name;
  reopen();
}

AccessTest::~AccessTest() {
  access_.reset();
  std::filesystem::remove_all(folder_);
}

void AccessTest::reopen() {
  access_.reset();
  auto opened = Access::open(folder_, clock_, settings_);
  ASSERT_TRUE(opened.ok()) << opened.error().detail;
  access_ = *std::move(opened);
}

Person AccessTest::add(const std::string& name, Role role) {
  auto added = access_->add_person(name, role, kPin, "machine");
  EXPECT_TRUE(added.ok()) << added.error().detail;
  return added.ok() ? *std::move(added) : Person{};
}

void AccessTest::let_read(const Person& inspector) {
  const base::Instant now = clock_.now();
  const Inspection wanted{"", InspectionScope::kEverything, now,
                          base::Instant{now.ms + 240 * kHour}};
  EXPECT_TRUE(access_->give_inspection(inspector.id, wanted, "machine").ok());
}

From from(std::string_view address) {
  const Place place = is_loopback(address) ? Place::kMachine : Place::kElsewhere;
  return {place, std::string(address), std::nullopt};
}

NewSession AccessTest::sign_in(const Person& person, const std::string& pin,
                               std::string_view address) {
  auto session = access_->sign_in(person.id, {Secret::Kind::kPin, pin}, from(address));
  EXPECT_TRUE(session.ok()) << session.error().detail;
  return session.ok() ? *std::move(session) : NewSession{};
}

SignInRefusal AccessTest::refusal(std::string_view person, const std::string& pin,
                                  std::string_view address) {
  auto session = access_->sign_in(person, {Secret::Kind::kPin, pin}, from(address));
  EXPECT_FALSE(session.ok());
  return session.ok() ? SignInRefusal{} : session.error();
}

void AccessTest::fail_times(const Person& person, int times, std::string_view address) {
  for (int i = 0; i < times; ++i) {
    ASSERT_EQ(refusal(person.id, kOtherPin, address).reason, SignInRefusal::Reason::kWrong)
        << "try " << i;
  }
}

std::string AccessTest::stored_bytes() const {
  std::string bytes;
  for (const auto& file : std::filesystem::directory_iterator(folder_)) {
    std::ifstream stream(file.path(), std::ios::binary);
    bytes.append(std::istreambuf_iterator<char>(stream), {});
  }
  return bytes;
}

std::int64_t AccessTest::number(const std::string& sql) const {
  auto database = sqlite::Database::open((folder_ / "access.db").string(), sqlite::Mode::kReadOnly);
  EXPECT_TRUE(database.ok());
  auto statement = database->prepare(sql);
  EXPECT_TRUE(statement.ok());
  const auto row = statement->step();
  EXPECT_TRUE(row.ok() && *row);
  return statement->integer(0);
}

}  // namespace benchwarden::access
