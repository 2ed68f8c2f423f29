// The whole interface under everything at once for some seconds, and stopped in the middle of it.
// What was answered as recorded is in the book, once, and the book and its tallies hold. Under the
// thread sanitizer this is the test of what the parts do to each other.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <deque>
#include <random>
#include <set>
#include <thread>

#include "soak/served_workshop.h"
#include "workshop/fold.h"
#include "workshop/upkeep.h"

namespace benchwarden::soak {
namespace {

using ::testing::IsEmpty;

constexpr std::chrono::seconds kLoadFor{5};
constexpr std::size_t kConnections = 16;

/// One thread's work, and what came of it.
class Worker {
 public:
  Worker(const ServedWorkshop& served, const std::atomic<bool>& is_stopping)
      : served_(served), is_stopping_(is_stopping) {}

  /// The status of the answer on a connection that is kept while it can be; 0 where none came.
  int ask(const std::string& request) {
    const std::string line = request.substr(0, request.find('\r'));
    for (int tries = 0; tries < 2; ++tries) {
      if (!client_ && !connect()) break;
      if (client_->send(request)) {
        answer_ = client_->read_answer();
        if (answer_) return counted(line);
      }
      // A connection that was kept may have ended meanwhile; a new one has to give an answer.
      const bool was_new = std::exchange(asked_, 0) == 0;
      client_.reset();
      if (was_new) break;
    }
    if (!is_stopping_) wrong_.push_back("no answer: " + line);
    return 0;
  }
  bool connect() {
    try {
      client_.emplace(served_.port());
      asked_ = 0;
    } catch (const std::runtime_error&) {
      return false;
    }
    return true;
  }
  /// Sends the beginning of a request and goes away.
  void drop(const std::string& request, std::size_t bytes) {
    client_.reset();
    if (!connect()) return;
    static_cast<void>(client_->send(std::string_view(request).substr(0, bytes)));
    client_.reset();
  }

  [[nodiscard]] const http::RawAnswer& answer() const { return *answer_; }
  [[nodiscard]] int answers() const { return answers_; }
  /// Requests without an answer before the server was stopped, and answers that nobody expects.
  [[nodiscard]] const std::vector<std::string>& wrong() const { return wrong_; }
  std::uint64_t pick(std::uint64_t below) { return random_() % below; }
  void start_from(std::uint64_t seed) { random_.seed(seed); }

 private:
  int counted(const std::string& line) {
    static const std::set<int> kExpected{200, 201, 204, 401, 403, 404, 421, 422, 429, 503};
    ++asked_;
    ++answers_;
    const int status = answer_->status;
    if (!kExpected.contains(status)) wrong_.push_back(line + ": " + answer_->body);
    if (answer_->closes()) client_.reset();
    return status;
  }

  const ServedWorkshop& served_;
  const std::atomic<bool>& is_stopping_;
  std::optional<http::RawClient> client_;
  int asked_ = 0;  ///< on this connection
  std::optional<http::RawAnswer> answer_;
  int answers_ = 0;
  std::vector<std::string> wrong_;
  std::mt19937_64 random_;
};

class MixedLoad : public ::testing::Test {
 protected:
  using Work = void (MixedLoad::*)(Worker&);

  void SetUp() override {
    manager_ = served_.sign_in("p1");
    technician_ = served_.sign_in("p3");
    inspector_ = served_.sign_in("p4");
    ASSERT_FALSE(manager_.empty() || technician_.empty() || inspector_.empty());
  }
  /// Runs each work over and over in a thread of its own; stops the server in the middle of it.
  void run(const std::vector<Work>& works) {
    std::atomic<bool> is_over = false;
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < works.size(); ++i) workers_.emplace_back(served_, is_stopping_);
    for (std::size_t i = 0; i < works.size(); ++i) {
      workers_[i].start_from(i);
      threads.emplace_back([&, i] {
        while (!is_over) (this->*works[i])(workers_[i]);
      });
    }
    std::this_thread::sleep_for(kLoadFor);
    is_stopping_ = true;
    served_.stop();
    is_over = true;
    for (std::thread& thread : threads) thread.join();
  }

  static std::vector<Work> everything() {
    return {&MixedLoad::record,     &MixedLoad::record,   &MixedLoad::sign_in_and_out,
            &MixedLoad::read,       &MixedLoad::read,     &MixedLoad::report,
            &MixedLoad::send_badly, &MixedLoad::send_file};
  }

  void record(Worker& worker) {
    const workshop::Told told =
        worker.pick(8) == 0
            ? workshop::tell("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":150})")
            : workshop::drain("w1", "1");
    const std::string body = base::write_json(told.json);
    const int status = worker.ask(served_.request("POST", kEntries, technician_, body));
    const std::lock_guard lock(mutex_);
    if (status == 201) recorded_.insert(told.id);
    sent_.insert(told.id);
  }
  void sign_in_and_out(Worker& worker) {
    const std::string pin = worker.pick(4) == 0 ? "805162" : ServedWorkshop::kPin;
    const std::string body = R"({"person":"p2","pin":")" + pin + "\"}";
    if (worker.ask(served_.request("POST", "/api/v1/session", "", body)) != 201) return;
    const auto answer = base::parse_json(worker.answer().body);
    ASSERT_TRUE(answer.ok());
    const std::string token = *answer->find("token")->string();
    worker.ask(served_.request("GET", "/api/v1/session", token));
    worker.ask(served_.request("GET", "/api/v1/people/accounts", token));
    worker.ask(served_.request("DELETE", "/api/v1/session", token));
  }
  void read(Worker& worker) {
    static constexpr std::array kPaths{"levels",
                                       "entries?limit=20",
                                       "findings",
                                       "due",
                                       "months",
                                       "health",
                                       "register/container",
                                       "book/checkpoint",
                                       "levels?as_of=2026-11-01T00:00:00Z",
                                       "openapi.json"};
    const std::string path = kPaths.at(worker.pick(kPaths.size()));
    worker.ask(served_.request("GET", "/api/v1/" + path, inspector_));
  }
  void report(Worker& worker) {
    static constexpr std::array kFormats{"pdf", "html", "csv", "json"};
    const std::string format = kFormats.at(worker.pick(kFormats.size()));
    worker.ask(served_.request("GET", "/api/v1/reports/waste-month." + format + "?month=2026-11",
                               manager_));
  }
  void send_badly(Worker& worker) {
    const std::string good =
        served_.request("POST", kEntries, technician_, base::write_json(base::JsonObject{}));
    switch (worker.pick(4)) {
      case 0:
        return worker.drop(good, worker.pick(good.size()));
      case 1:
        worker.ask(good);
        return;
      case 2:
        worker.ask(served_.request("PUT", "/api/v1/nowhere", ""));
        return;
      default:
        worker.ask("GET /api/v1/levels HTTP/1.1\r\nHost: elsewhere\r\n\r\n");
    }
  }
  void send_file(Worker& worker) {
    const std::string bytes = "%PDF-1.7\n" + std::string(worker.pick(20'000), ' ') +
                              std::to_string(worker.pick(1'000'000)) + "\nstartxref\n9\n%%EOF\n";
    worker.ask(
        served_.request("POST", "/api/v1/attachments", technician_, bytes, "application/pdf"));
  }

  void expect_the_book_holds() {
    std::uint64_t told = 0;
    const auto walked = served_.workshop().ports().book.each(1, [&](const entries::Entry& entry) {
      const std::string id = base::format_uuid(entry.content.id);
      if (sent_.contains(id)) ++told;
      recorded_.erase(id);
      return base::Status<>(base::Done{});
    });
    ASSERT_TRUE(walked.ok()) << walked.error().detail;
    EXPECT_THAT(recorded_, IsEmpty()) << "answered as recorded, and not in the book";
    EXPECT_GT(told, 0U);
    const auto rebuilt = workshop::rebuild(served_.workshop().ports());
    ASSERT_TRUE(rebuilt.ok()) << rebuilt.error().detail;
    EXPECT_TRUE(rebuilt->same);
    served_.workshop().close();
    const auto verified =
        workshop::verify_book(served_.workshop().folder(), workshop::real_definitions());
    ASSERT_TRUE(verified.ok()) << verified.error().detail;
    EXPECT_THAT(verified->faults, IsEmpty());
  }

  static constexpr const char* kEntries = "/api/v1/entries";
  ServedWorkshop served_{kConnections};
  std::string manager_;
  std::string technician_;
  std::string inspector_;
  std::atomic<bool> is_stopping_ = false;
  std::deque<Worker> workers_;
  std::mutex mutex_;
  std::set<std::string> sent_;
  std::set<std::string> recorded_;
};

TEST_F(MixedLoad, LosesNothingAndHoldsWhenItIsStoppedInTheMiddle) {
  run(everything());
  for (std::size_t i = 0; i < workers_.size(); ++i) {
    EXPECT_THAT(workers_[i].wrong(), IsEmpty());
    EXPECT_GT(workers_[i].answers(), 0) << "worker " << i;
  }
  EXPECT_GT(recorded_.size(), 10U);
  EXPECT_THAT(served_.faults(), IsEmpty());
  expect_the_book_holds();
}

}  // namespace
}  // namespace benchwarden::soak
