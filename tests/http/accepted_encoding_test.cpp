#include "http/accepted_encoding.h"

#include <gtest/gtest.h>

#include <string>

namespace benchwarden::http {
namespace {

TEST(AcceptsGzip, WhereItIsNamedOrAnythingIsTaken) {
  for (const std::string sent :
       {"gzip", "gzip, deflate, br, zstd", "br,GZIP", "x-gzip", "deflate , gzip ;q=0.5", "*",
        "br, *;q=0.1", "gzip;q=1.000", "gzip;Q=0.001", "identity;q=0, gzip", "*;q=0, gzip"}) {
    EXPECT_TRUE(accepts_gzip(sent)) << sent;
  }
}

TEST(AcceptsGzip, NeverWhereItIsNotTaken) {
  for (const std::string sent :
       {"", "br", "identity", "gzip;q=0", "gzip; q=0.000", "*, gzip;q=0", "gzipped", "*;q=0", ",",
        ";", "gzip;q=", "gzip;q=much", "gzip;level=9"}) {
    EXPECT_FALSE(accepts_gzip(sent)) << sent;
  }
}

}  // namespace
}  // namespace benchwarden::http
