#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>

#include "access/access.h"
#include "base/clock.h"

namespace benchwarden::access {

constexpr std::int64_t kSecond = 1'000;
constexpr std::int64_t kMinute = 60 * kSecond;
constexpr std::int64_t kHour = 60 * kMinute;

class HandClock final : public base::Clock {
 public:
  [[nodiscard]] base::Instant now() const override { return base::Instant{ms_}; }
  void pass(std::int64_t ms) { ms_ += ms; }

 private:
  std::atomic<std::int64_t> ms_{1'792'000'000'000};
};

/// The cheapest hashing libsodium allows: the rules are the same, and tests stay quick.
Settings quick_settings();

From from(std::string_view address);

/// A data folder of its own per test, and an Access over it.
class AccessTest : public ::testing::Test {
 protected:
  static constexpr const char* kPin = "274913";
  static constexpr const char* kOtherPin = "805162";
  static constexpr const char* kAddress = "127.0.0.1";

  AccessTest();
  ~AccessTest() override;

  void reopen();  ///< closes what is open, opens it again with `settings_`
  Person add(const std::string& name, Role role = Role::kTechnician);
  void let_read(const Person& inspector);  ///< everything, for ten days
  NewSession sign_in(const Person& person, const std::string& pin = kPin,
                     std::string_view address = kAddress);
  SignInRefusal refusal(std::string_view person, const std::string& pin,
                        std::string_view address = kAddress);
  void fail_times(const Person& person, int times, std::string_view address = kAddress);
  /// Every byte of every file in the folder.
  std::string stored_bytes() const;
  /// One number from access.db, over a connection of its own.
  std::int64_t number(const std::string& sql) const;

  std::filesystem::path folder_;
  HandClock clock_;
  Settings settings_ = quick_settings();
  std::unique_ptr<Access> access_;
};

}  // namespace benchwarden::access
