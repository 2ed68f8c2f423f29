#include "base/uuid.h"

#include <gtest/gtest.h>

namespace benchwarden::base {
namespace {

// RFC 9562 appendix A.6: the example of a version 7 value and the time it holds.
TEST(Uuid, MakesTheExampleOfItsRfc) {
  const Uuid id = make_uuid7(Instant{0x017F22E279B0},
                             {0x0C, 0xC3, 0x18, 0xC4, 0xDC, 0x0C, 0x0C, 0x07, 0x39, 0x8F});
  EXPECT_EQ(format_uuid(id), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
}

TEST(Uuid, ReadsEitherCaseAndPrintsLowerCase) {
  EXPECT_EQ(format_uuid(*parse_uuid("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")),
            "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
}

TEST(Uuid, RefusesWhatIsNone) {
  for (const char* text :
       {"", "017f22e279b07cc398c4dc0c0c07398f", "017f22e2-79b0-7cc3-98c4-dc0c0c07398",
        "017f22e2-79b0-7cc3-98c4+dc0c0c07398f", "017f22e2-79b0-7cc3-98c4-dc0c0c07398g",
        "00000000-0000-0000-0000-000000000000"}) {
    EXPECT_FALSE(parse_uuid(text).ok()) << text;
  }
}

}  // namespace
}  // namespace benchwarden::base
