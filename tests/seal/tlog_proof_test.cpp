#include "seal/tlog_proof.h"

#include <gtest/gtest.h>

namespace benchwarden::seal {
namespace {

const std::string kHash = "XcnaeaZwZZqdVZy3Ae2Z6aK5+CPq0vSWDP43DvP0YEM=\n";
const std::string kNote = "origin\n8\n" + kHash + "\n\u2014 origin AAAAAAAA\n";
const std::string kFile =
    "c2sp.org/tlog-proof@v1\nextra bGVhZg==\nindex 5\n" + kHash + kHash + "\n" + kNote;

std::string why_no_proof(const std::string& text) {
  const auto parsed = parse_tlog_proof(text);
  return parsed ? "taken" : parsed.error().detail;
}

TEST(TlogProof, IsReadAndWrittenAlike) {
  const auto proof = parse_tlog_proof(kFile);
  ASSERT_TRUE(proof) << proof.error().detail;
  EXPECT_EQ(proof->extra, "leaf");
  EXPECT_EQ(proof->index, 5U);
  EXPECT_EQ(proof->path.size(), 2U);
  EXPECT_EQ(proof->note, kNote);
  EXPECT_EQ(write_tlog_proof(*proof), kFile);
}

TEST(TlogProof, NeedsNeitherExtraNorHashes) {
  const std::string file = "c2sp.org/tlog-proof@v1\nindex 0\n\n" + kNote;
  const auto proof = parse_tlog_proof(file);
  ASSERT_TRUE(proof) << proof.error().detail;
  EXPECT_TRUE(proof->extra.empty() && proof->path.empty());
  EXPECT_EQ(write_tlog_proof(*proof), file);
}

TEST(TlogProof, SaysWhatIsWrongWithOne) {
  const std::string begin = "c2sp.org/tlog-proof@v1\n";
  EXPECT_EQ(why_no_proof("c2sp.org/tlog-proof@v2\nindex 0\n\n"),
            "no proof of an entry: the first line 'c2sp.org/tlog-proof@v1' is needed");
  for (const char* index : {"", "index\n", "index -1\n", "index 01\n", "index 1 \n", "index 1"}) {
    EXPECT_EQ(why_no_proof(begin + index),
              "no proof of an entry: a line 'index' with a whole number is needed")
        << index;
  }
  EXPECT_EQ(why_no_proof(begin + "extra x\nindex 0\n\n"),
            "no proof of an entry: what stands behind 'extra' is no base64 (RFC 4648, section 4)");
  EXPECT_EQ(why_no_proof(begin + "extra bGVhZg=="),
            "no proof of an entry: the line 'extra' does not end");
  EXPECT_EQ(why_no_proof(begin + "index 0\nAAAA\n\n"),
            "no proof of an entry: a hash is not 32 bytes in base64");
  EXPECT_EQ(why_no_proof(begin + "index 0\n" + kHash),
            "no proof of an entry: there is no empty line between the hashes and the checkpoint");
  std::string many = begin + "index 0\n";
  for (int i = 0; i < 64; ++i) many += kHash;
  EXPECT_EQ(why_no_proof(many + "\n"), "no proof of an entry: it has more than 63 hashes");
}

}  // namespace
}  // namespace benchwarden::seal
