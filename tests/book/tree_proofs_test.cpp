#include "book/tree_proofs.h"

#include <gtest/gtest.h>

#include <array>
#include <bit>
#include <map>
#include <random>
#include <string>

#include "book/book_fixture.h"
#include "book/check_proofs.h"

namespace benchwarden::book {
namespace {

/// A tree in memory that counts the hashes it is asked for.
class KnownTree {
 public:
  void append(const base::Sha256Digest& leaf_hash) {
    for (const Node& node : edge_.append(leaf_hash)) {
      nodes_[{node.place.level, node.place.index}] = node.hash;
    }
    leaves_.push_back(leaf_hash);
    heads_.push_back({edge_.size(), edge_.root()});
  }
  [[nodiscard]] const TreeHead& head(std::uint64_t size) const { return heads_[size - 1]; }
  [[nodiscard]] const base::Sha256Digest& leaf(std::uint64_t seq) const { return leaves_[seq - 1]; }
  [[nodiscard]] std::size_t asked() const { return asked_; }

  NodeAt nodes() {
    return [this](NodePlace place) -> base::Result<base::Sha256Digest> {
      ++asked_;
      const auto found = nodes_.find({place.level, place.index});
      if (found != nodes_.end()) return found->second;
      return base::Error{base::ErrorCode::kDamaged, "not there"};
    };
  }

 private:
  TreeEdge edge_;
  std::map<std::pair<int, std::uint64_t>, base::Sha256Digest> nodes_;
  std::vector<base::Sha256Digest> leaves_;
  std::vector<TreeHead> heads_;
  std::size_t asked_ = 0;
};

std::vector<std::string> in_hex(const ProofPath& path) {
  std::vector<std::string> hex;
  for (const base::Sha256Digest& hash : path) hex.push_back(base::to_hex(hash));
  return hex;
}

// The test tree of the public Certificate Transparency reference code, whose hashing is that of
// RFC 9162 section 2.1, and the proofs of it that stand alike in several independent
// implementations' test files; all were recomputed apart from this code.
KnownTree reference_tree() {
  KnownTree tree;
  for (const char* hex : {"", "00", "10", "2021", "3031", "40414243", "5051525354555657",
                          "606162636465666768696a6b6c6d6e6f"}) {
    std::string leaf;
    for (std::string_view rest = hex; !rest.empty(); rest.remove_prefix(2)) {
      leaf += static_cast<char>(std::stoi(std::string(rest.substr(0, 2)), nullptr, 16));
    }
    tree.append(hash_leaf(leaf));
  }
  return tree;
}
constexpr const char* kA = "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d";
constexpr const char* kB = "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125";
constexpr const char* kQ = "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7";
constexpr const char* k1 = "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7";
constexpr const char* k2 = "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e";
constexpr const char* k3 = "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4";
constexpr const char* k4 = "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b";
constexpr const char* k5 = "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0";
constexpr const char* k6 = "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a";

struct Expected {
  std::uint64_t first;  ///< the entry, or the size of the older tree
  std::uint64_t size;
  std::vector<std::string> path;
};

TEST(TreeProofs, InclusionIsThatOfTheReferenceTree) {
  KnownTree tree = reference_tree();
  for (const Expected& one : {Expected{1, 1, {}},
                              {1, 8, {k1, k2, k3}},
                              {6, 8, {k4, k5, kQ}},
                              {3, 3, {kB}},
                              {2, 5, {kA, k2, k4}}}) {
    const auto path = inclusion_path(tree.nodes(), one.first, one.size);
    ASSERT_TRUE(path);
    EXPECT_EQ(in_hex(*path), one.path) << one.first << " of " << one.size;
    EXPECT_TRUE(proves_inclusion(one.first, tree.leaf(one.first), tree.head(one.size), *path));
  }
}

TEST(TreeProofs, ConsistencyIsThatOfTheReferenceTree) {
  KnownTree tree = reference_tree();
  for (const Expected& one :
       {Expected{1, 1, {}}, {1, 8, {k1, k2, k3}}, {6, 8, {k6, k5, kQ}}, {2, 5, {k2, k4}}}) {
    const auto path = consistency_path(tree.nodes(), one.first, one.size);
    ASSERT_TRUE(path);
    EXPECT_EQ(in_hex(*path), one.path) << one.first << " to " << one.size;
    EXPECT_TRUE(proves_consistency(tree.head(one.first), tree.head(one.size), *path));
  }
}

KnownTree tree_of(std::uint64_t size, unsigned seed) {
  std::mt19937 dice(seed);
  KnownTree tree;
  for (std::uint64_t i = 0; i < size; ++i) tree.append(hash_leaf(std::to_string(dice())));
  return tree;
}

/// Every way to be wrong by one: a hash changed, left out, doubled or swapped.
std::vector<ProofPath> spoilt(const ProofPath& path) {
  std::vector<ProofPath> wrong;
  for (std::size_t i = 0; i < path.size(); ++i) {
    wrong.push_back(path);
    wrong.back()[i][i % 32] ^= 1U;
    wrong.push_back(path);
    wrong.back().erase(wrong.back().begin() + static_cast<std::ptrdiff_t>(i));
    wrong.push_back(path);
    wrong.back().insert(wrong.back().begin(), path[i]);
  }
  wrong.push_back(path);
  wrong.back().emplace_back();
  return wrong;
}

TEST(TreeProofs, HoldForEveryEntryOfEverySize) {
  constexpr std::uint64_t kSize = 70;
  KnownTree tree = tree_of(kSize, 7);
  for (std::uint64_t size = 1; size <= kSize; ++size) {
    for (std::uint64_t first = 1; first <= size; ++first) {
      const auto path = inclusion_path(tree.nodes(), first, size);
      ASSERT_TRUE(path && proves_inclusion(first, tree.leaf(first), tree.head(size), *path));
      const auto growth = consistency_path(tree.nodes(), first, size);
      ASSERT_TRUE(growth && proves_consistency(tree.head(first), tree.head(size), *growth));
    }
  }
}

TEST(TreeProofs, SpoiltAnywhereDoNotHold) {
  KnownTree tree = tree_of(37, 9);
  KnownTree other = tree_of(37, 10);
  for (std::uint64_t size = 1; size <= 37; ++size) {
    for (std::uint64_t first = 1; first <= size; ++first) {
      const ProofPath path = *inclusion_path(tree.nodes(), first, size);
      for (const ProofPath& wrong : spoilt(path)) {
        EXPECT_FALSE(proves_inclusion(first, tree.leaf(first), tree.head(size), wrong));
      }
      EXPECT_FALSE(proves_inclusion(first, other.leaf(first), tree.head(size), path));
      EXPECT_FALSE(proves_inclusion(first, tree.leaf(first), other.head(size), path));
      const ProofPath growth = *consistency_path(tree.nodes(), first, size);
      for (const ProofPath& wrong : spoilt(growth)) {
        EXPECT_FALSE(proves_consistency(tree.head(first), tree.head(size), wrong))
            << first << " to " << size;
      }
      EXPECT_FALSE(proves_consistency(other.head(first), tree.head(size), growth));
      EXPECT_FALSE(proves_consistency(tree.head(first), other.head(size), growth));
    }
  }
}

TEST(TreeProofs, OfNoSuchPlaceDoNotHold) {
  KnownTree tree = tree_of(8, 3);
  EXPECT_FALSE(proves_inclusion(0, tree.leaf(1), tree.head(8), {}));
  EXPECT_FALSE(proves_inclusion(9, tree.leaf(1), tree.head(8), {}));
  EXPECT_FALSE(proves_consistency({0, {}}, tree.head(8), {}));
  EXPECT_FALSE(
      proves_consistency(tree.head(8), tree.head(4), *consistency_path(tree.nodes(), 4, 8)));
}

TEST(TreeProofs, AskForFewHashes) {
  KnownTree tree = tree_of(5'000, 5);
  const auto bits = static_cast<std::size_t>(std::bit_width(5'000U));
  for (const std::uint64_t first : {1U, 2U, 1'023U, 1'024U, 4'095U, 4'999U}) {
    const std::size_t before = tree.asked();
    ASSERT_TRUE(consistency_path(tree.nodes(), first, 5'000));
    EXPECT_LE(tree.asked() - before, bits * bits) << first;
  }
}

TEST(TreeProofs, TellOfAHashThatIsMissing) {
  const NodeAt nothing = [](NodePlace) -> base::Result<base::Sha256Digest> {
    return base::Error{base::ErrorCode::kDamaged, "not there"};
  };
  EXPECT_EQ(consistency_path(nothing, 3, 5).error().code, base::ErrorCode::kDamaged);
  EXPECT_EQ(inclusion_path(nothing, 3, 5).error().code, base::ErrorCode::kDamaged);
}

class ProofsOfABook : public testing::BookTest {};

TEST_F(ProofsOfABook, LeadFromItsOwnHeads) {
  open();
  std::vector<TreeHead> heads;
  for (std::uint64_t number = 1; number <= 13; ++number) {
    append(number, number);
    heads.push_back(book_->head());
  }
  for (const TreeHead& from : heads) {
    const auto shown = book_->consistency(from.size, 13);
    ASSERT_TRUE(shown);
    EXPECT_EQ(shown->from, from);
    EXPECT_EQ(shown->to, heads.back());
    EXPECT_TRUE(proves_consistency(from, heads.back(), shown->path));
  }
  EXPECT_EQ(book_->consistency(0, 13).error().code, base::ErrorCode::kInvalid);
  EXPECT_EQ(book_->consistency(9, 8).error().code, base::ErrorCode::kInvalid);
  EXPECT_EQ(book_->consistency(9, 14).error().code, base::ErrorCode::kNotFound);
}

}  // namespace
}  // namespace benchwarden::book
