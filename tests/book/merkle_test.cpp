#include "book/merkle.h"

#include <gtest/gtest.h>

#include <array>
#include <string>

namespace benchwarden::book {
namespace {

// Leaves and roots: the test tree of the public Certificate Transparency reference code, whose
// hashing is that of RFC 9162 section 2.1. The eight roots stand alike in several independent
// implementations' test files and were recomputed apart from this code.
const std::array<std::string, 8> kLeaves{
    std::string(),
    std::string("\x00", 1),
    "\x10",
    "\x20\x21",
    "\x30\x31",
    "\x40\x41\x42\x43",
    "\x50\x51\x52\x53\x54\x55\x56\x57",
    "\x60\x61\x62\x63\x64\x65\x66\x67\x68\x69\x6a\x6b\x6c\x6d\x6e\x6f"};
const std::array<std::string, 9> kRoots{
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328"};

/// RFC 9162 section 2.1.1 word for word, by recursion, as a second way to the same root.
base::Sha256Digest root_by_definition(const std::vector<base::Sha256Digest>& hashes,
                                      std::size_t from, std::size_t to) {
  if (from == to) return base::sha256(std::string_view());
  if (to - from == 1) return hashes[from];
  std::size_t split = 1;
  while (split * 2 < to - from) split *= 2;
  return hash_node(root_by_definition(hashes, from, from + split),
                   root_by_definition(hashes, from + split, to));
}

TEST(Merkle, HashesLeavesAndNodesByRfc9162) {
  // Source: the same public test files as the roots above.
  EXPECT_EQ(base::to_hex(hash_leaf("L123456")),
            "395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56");
  EXPECT_EQ(base::to_hex(hash_leaf("")), kRoots[1]);
}

TEST(Merkle, GivesTheReferenceRootAtEverySize) {
  TreeEdge edge;
  EXPECT_EQ(base::to_hex(edge.root()), kRoots[0]);
  for (std::size_t i = 0; i < kLeaves.size(); ++i) {
    edge.append(hash_leaf(kLeaves[i]));
    EXPECT_EQ(base::to_hex(edge.root()), kRoots[i + 1]) << "after leaf " << i;
  }
}

TEST(Merkle, CompletesEachFullSubtreeOnce) {
  TreeEdge edge;
  std::vector<NodePlace> completed;
  for (const std::string& leaf : kLeaves) {
    for (const Node& node : edge.append(hash_leaf(leaf))) completed.push_back(node.place);
  }
  const std::vector<NodePlace> expected{{0, 0}, {0, 1}, {1, 0}, {0, 2}, {0, 3},
                                        {1, 1}, {2, 0}, {0, 4}, {0, 5}, {1, 2},
                                        {0, 6}, {0, 7}, {1, 3}, {2, 1}, {3, 0}};
  EXPECT_EQ(completed, expected);
}

TEST(Merkle, AgreesWithTheDefinitionUpToSeventySizes) {
  std::vector<base::Sha256Digest> hashes;
  TreeEdge edge;
  for (std::size_t size = 1; size <= 70; ++size) {
    hashes.push_back(hash_leaf("leaf " + std::to_string(size)));
    edge.append(hashes.back());
    ASSERT_EQ(edge.root(), root_by_definition(hashes, 0, size)) << size;
  }
}

TEST(Merkle, AnEdgeRebuiltFromItsPeaksGoesOnAlike) {
  std::vector<Node> nodes;
  TreeEdge edge;
  for (int i = 0; i < 21; ++i) {
    for (const Node& node : edge.append(hash_leaf(std::to_string(i)))) nodes.push_back(node);
  }
  std::vector<base::Sha256Digest> peaks;
  for (const NodePlace place : peaks_of(edge.size())) {
    for (const Node& node : nodes) {
      if (node.place == place) peaks.push_back(node.hash);
    }
  }
  TreeEdge rebuilt = TreeEdge::from_peaks(edge.size(), peaks);
  EXPECT_EQ(rebuilt.root(), edge.root());
  rebuilt.append(hash_leaf("next"));
  edge.append(hash_leaf("next"));
  EXPECT_EQ(rebuilt.root(), edge.root());
}

TEST(Merkle, PeaksFollowTheBitsOfTheSize) {
  EXPECT_EQ(peaks_of(0), std::vector<NodePlace>{});
  EXPECT_EQ(peaks_of(21), (std::vector<NodePlace>{{4, 0}, {2, 4}, {0, 20}}));
  EXPECT_EQ(peaks_of(UINT64_MAX).size(), 64U);
}

}  // namespace
}  // namespace benchwarden::book
