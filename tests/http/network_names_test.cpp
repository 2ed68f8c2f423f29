#include "http/network_names.h"

#include <gtest/gtest.h>

namespace benchwarden::http {
namespace {

TEST(NetworkNames, AreHostNamesWithADot) {
  for (const std::string name : {"shop.local", "bench-1.works.example", "a.b", "1.local"}) {
    EXPECT_TRUE(is_network_name(name)) << name;
  }
  for (const std::string& name :
       {std::string(), std::string("shop"), std::string("Shop.local"), std::string("shop..local"),
        std::string("shop.local."), std::string("-shop.local"), std::string("shop-.local"),
        std::string("sh op.local"), std::string("shop.local,DNS:bank.example"),
        std::string("192.168.1.1"), std::string("<b>.local"), std::string(60, 'a') + ".local"}) {
    EXPECT_FALSE(is_network_name(name)) << name;
  }
}

TEST(NetworkNames, PrivateAddressesEndWhereTheirRangesDo) {
  for (const std::string address :
       {"10.255.255.255", "172.16.0.0", "172.31.255.255", "192.168.255.1", "169.254.0.1",
        "127.8.0.1", "::1", "fc00::1", "fdff::1"}) {
    EXPECT_TRUE(is_private_address(address)) << address;
  }
  for (const std::string address : {"11.0.0.0", "172.15.255.255", "172.32.0.0", "192.169.0.0",
                                    "203.0.113.5", "::2", "2001:db8::1", "fe80::1", "shop.local"}) {
    EXPECT_FALSE(is_private_address(address)) << address;
  }
}

TEST(NetworkNames, KnowTheLoopbackAndEveryAddress) {
  EXPECT_TRUE(is_loopback_address("127.0.0.1"));
  EXPECT_TRUE(is_loopback_address("::1"));
  EXPECT_FALSE(is_loopback_address("10.0.0.1"));
  EXPECT_TRUE(is_any_address("0.0.0.0"));
  EXPECT_TRUE(is_any_address("0:0:0:0:0:0:0:0"));
  EXPECT_FALSE(is_any_address("0.0.0.1"));
  EXPECT_FALSE(is_any_address("shop.local"));
  EXPECT_EQ(plain_address("0:0:0:0:0:0:0:1"), "::1");
}

TEST(NetworkNames, PresentAddressesArePrivateAndElsewhere) {
  for (const std::string& address : present_addresses()) {
    EXPECT_TRUE(is_private_address(address) && !is_loopback_address(address)) << address;
  }
}

}  // namespace
}  // namespace benchwarden::http
