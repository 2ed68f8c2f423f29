#include "http/kept_answers.h"

#include <gtest/gtest.h>

#include <string>

namespace benchwarden::http {
namespace {

class Kept : public ::testing::Test {
 protected:
  std::string ask(const std::string& path, std::uint64_t book_size, int after_ms) {
    const Response response =
        kept_.answer(path, book_size, begin_ + std::chrono::milliseconds(after_ms), [&] {
          Response made;
          made.status = status_;
          made.body = path + " no. " + std::to_string(++made_);
          return made;
        });
    return std::string(body_bytes(response));
  }

  KeptAnswers kept_;
  KeptAnswers::Time begin_ = std::chrono::steady_clock::now();
  int made_ = 0;
  int status_ = 200;
};

TEST_F(Kept, TheSameForASecondWhileTheBookStays) {
  EXPECT_EQ(ask("/levels", 7, 0), "/levels no. 1");
  EXPECT_EQ(ask("/levels", 7, 999), "/levels no. 1");
  EXPECT_EQ(ask("/levels", 7, 1000), "/levels no. 2");
}

TEST_F(Kept, NotWhenTheBookHasGrown) {
  EXPECT_EQ(ask("/levels", 7, 0), "/levels no. 1");
  EXPECT_EQ(ask("/levels", 8, 1), "/levels no. 2");
  EXPECT_EQ(ask("/levels", 7, 2), "/levels no. 3") << "nor one of a later size";
}

TEST_F(Kept, EachPathHasItsOwn) {
  EXPECT_EQ(ask("/levels", 7, 0), "/levels no. 1");
  EXPECT_EQ(ask("/months", 7, 0), "/months no. 2");
  EXPECT_EQ(ask("/levels", 7, 0), "/levels no. 1");
}

TEST_F(Kept, NothingThatIsNoAnswer) {
  status_ = 503;
  EXPECT_EQ(ask("/levels", 7, 0), "/levels no. 1");
  EXPECT_EQ(ask("/levels", 7, 0), "/levels no. 2");
}

TEST_F(Kept, NoMoreThanItsBound) {
  for (std::size_t i = 0; i <= KeptAnswers::kPathsMax; ++i) ask(std::to_string(i), 7, 0);
  EXPECT_EQ(ask(std::to_string(KeptAnswers::kPathsMax), 7, 0),
            std::to_string(KeptAnswers::kPathsMax) + " no. 65");
  EXPECT_EQ(ask("0", 7, 0), "0 no. 66") << "made room for the last";
}

}  // namespace
}  // namespace benchwarden::http
