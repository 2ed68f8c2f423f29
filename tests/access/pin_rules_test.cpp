#include "access/pin_rules.h"

#include <gtest/gtest.h>

#include <string>

namespace benchwarden::access {
namespace {

TEST(PinRules, TakesSixToTwelveMixedDigits) {
  for (const char* pin : {"274913", "112233", "123457", "121212", "274913805162", "000001"}) {
    EXPECT_TRUE(check_pin(pin).ok()) << pin;
  }
}

TEST(PinRules, RefusesOtherLengths) {
  for (const char* pin : {"", "27491", "2749138051627"}) {
    EXPECT_FALSE(check_pin(pin).ok()) << pin;
  }
}

TEST(PinRules, RefusesWhatIsNotADigit) {
  for (const char* pin : {"27491a", "27 913", "-27491", "2749.3", "\u0662\u0667\u0664"}) {
    EXPECT_FALSE(check_pin(pin).ok()) << pin;
  }
  EXPECT_FALSE(check_pin(std::string("27491\0", 6)).ok());
}

TEST(PinRules, RefusesOneDigitRepeated) {
  for (char digit = '0'; digit <= '9'; ++digit) {
    EXPECT_FALSE(check_pin(std::string(6, digit)).ok());
    EXPECT_FALSE(check_pin(std::string(12, digit)).ok());
  }
}

TEST(PinRules, RefusesRunsUpAndDown) {
  for (const char* pin : {"123456", "456789", "654321", "987654321", "890123", "321098"}) {
    EXPECT_FALSE(check_pin(pin).ok()) << pin;
  }
}

TEST(PinRules, NeverRepeatsThePinInTheAnswer) {
  const auto refused = check_pin("123456");
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, base::ErrorCode::kInvalid);
  EXPECT_EQ(refused.error().detail.find("123456"), std::string::npos);
}

}  // namespace
}  // namespace benchwarden::access
