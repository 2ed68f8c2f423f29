// Clients that stay silent, drip, or come in crowds; and stopping while they do.
#include <gtest/gtest.h>

#include <iterator>
#include <memory>
#include <thread>
#include <vector>

#include "http/server_fixture.h"

namespace benchwarden::http {
namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

milliseconds since(steady_clock::time_point began) {
  return std::chrono::duration_cast<milliseconds>(steady_clock::now() - began);
}

/// A deadline that no test of something else is to meet, however busy the machine.
constexpr milliseconds kLong{6000};

class Guard : public ServerFixture {
 protected:
  std::vector<std::unique_ptr<RawClient>> connect_silently(int count,
                                                           const std::string& from = "127.0.0.1") {
    std::vector<std::unique_ptr<RawClient>> clients;
    for (int i = 0; i < count; ++i) {
      clients.push_back(std::make_unique<RawClient>(port(), from));
    }
    return clients;
  }
  /// Sends one byte after the other until the other end closes; gives how long that took.
  milliseconds drip_until_cut(RawClient& client, const std::string& start, char byte) {
    const auto began = steady_clock::now();
    EXPECT_TRUE(client.send(start));
    while (since(began) < milliseconds(5000)) {
      if (client.read_to_end(milliseconds(50)) || !client.send(std::string(1, byte))) {
        break;
      }
    }
    return since(began);
  }
  milliseconds time_to_stop() {
    const auto began = steady_clock::now();
    server_->stop();
    return since(began);
  }
};

TEST_F(Guard, CutsASilentConnection) {
  RawClient client(port());
  const auto began = steady_clock::now();
  EXPECT_EQ(client.read_to_end(), "");
  EXPECT_GE(since(began), short_settings().guard.header - milliseconds(50));
  EXPECT_LT(since(began), short_settings().guard.header + kSlack);
  EXPECT_EQ(server_->counters().guard.cut_awaiting, 1U);
}

TEST_F(Guard, CutsAHeadThatDrips) {
  RawClient client(port());
  const milliseconds lasted = drip_until_cut(client, "GET / HTTP/1.1\r\nX-Note: ", 'a');
  EXPECT_GE(lasted, short_settings().guard.header);
  EXPECT_LT(lasted, short_settings().guard.header + kSlack);
}

TEST_F(Guard, CutsABodyThatDrips) {
  RawClient client(port());
  const milliseconds lasted = drip_until_cut(
      client,
      head("POST /api/v1/echo", "Content-Type: application/json\r\nContent-Length: 60000\r\n"),
      ' ');
  EXPECT_GE(lasted, short_settings().guard.body);
  EXPECT_LT(lasted, short_settings().guard.body + short_settings().guard.draining + kSlack);
  EXPECT_EQ(server_->counters().guard.cut_body, 1U);
  EXPECT_EQ(echoes_, 0);
}

TEST_F(Guard, CutsAClientThatDoesNotTakeItsAnswer) {
  RawClient client(port());
  ASSERT_TRUE(client.send(get("/api/v1/large")));
  const auto began = steady_clock::now();
  while (server_->counters().guard.cut_sending == 0 && since(began) < milliseconds(5000)) {
    std::this_thread::sleep_for(milliseconds(10));
  }
  EXPECT_EQ(server_->counters().guard.cut_sending, 1U);
  EXPECT_GE(since(began), short_settings().guard.sending - milliseconds(50));
}

TEST_F(Guard, LetsAConnectionRestBetweenRequestsAndThenCutsIt) {
  RawClient client(port());
  for (int i = 0; i < 3; ++i) {
    ASSERT_TRUE(client.send(get("/")));
    ASSERT_TRUE(client.read_answer());
    std::this_thread::sleep_for(short_settings().guard.idle / 2);
  }
  EXPECT_EQ(client.read_to_end(), "");
}

TEST_F(Guard, DoesNotCutASlowHandler) {
  ServerSettings settings = short_settings();
  settings.guard.header = settings.guard.idle = milliseconds(100);
  settings.guard.body = settings.guard.sending = milliseconds(100);
  start(settings);
  const auto answer = ask(get("/api/v1/slow"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->body, "late");
}

TEST_F(Guard, SixteenSilentConnectionsOnFourWorkersDelayAGoodOneByTheDeadlineAtMost) {
  ServerSettings settings = short_settings();
  settings.workers = 4;
  start(settings);
  const auto silent = connect_silently(16);
  std::this_thread::sleep_for(milliseconds(150));
  const auto began = steady_clock::now();
  const auto answer = ask(get("/"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
  EXPECT_LT(since(began), settings.guard.header + kSlack);
}

TEST_F(Guard, ClosesAConnectionTooManyFromOneAddress) {
  ServerSettings settings = short_settings();
  settings.guard.connections_per_peer_max = 3;
  settings.guard.header = kLong;
  start(settings);
  auto held = connect_silently(3);
  RawClient fourth(port());
  EXPECT_EQ(fourth.read_to_end(kLong / 2), "");
  EXPECT_EQ(server_->counters().guard.refused_peer, 1U);
  EXPECT_EQ(server_->counters().guard.admitted, 3U);
  ASSERT_TRUE(held[0]->send(get("/")));
  EXPECT_TRUE(held[0]->read_answer()) << "those let in are served";
}

TEST_F(Guard, ACrowdThatWaitsGivesAPlaceToWhoeverHasFewer) {
  ServerSettings settings = short_settings();
  settings.guard.connections_max = 6;
  settings.guard.header = kLong;
  start(settings);
  const auto crowd = connect_silently(4, "127.0.0.2");
  const auto few = connect_silently(2, "127.0.0.3");
  const auto began = steady_clock::now();
  RawClient one(port(), "127.0.0.4");
  ASSERT_TRUE(one.send(get("/")));
  const auto answer = one.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
  EXPECT_LT(since(began), milliseconds(1000));
  EXPECT_EQ(crowd[0]->read_to_end(), "") << "the one that waited longest";
  EXPECT_EQ(server_->counters().guard.cut_for_others, 1U);
  EXPECT_EQ(few[0]->read_to_end(milliseconds(100)), std::nullopt);
}

TEST_F(Guard, WhoHasAsManyPlacesAsTheOthersTakesNone) {
  ServerSettings settings = short_settings();
  settings.guard.connections_max = 4;
  settings.guard.header = kLong;
  start(settings);
  const auto some = connect_silently(2, "127.0.0.2");
  const auto others = connect_silently(2, "127.0.0.3");
  RawClient more(port(), "127.0.0.3");
  EXPECT_EQ(more.read_to_end(kLong / 2), "");
  RawClient first(port(), "127.0.0.4");  // two would be left with one
  EXPECT_EQ(some[0]->read_to_end(milliseconds(1000)), "");
  EXPECT_EQ(server_->counters().guard.refused_full, 1U);
  EXPECT_EQ(server_->counters().guard.cut_for_others, 1U);
}

TEST_F(Guard, NobodyAtWorkGivesUpAPlace) {
  ServerSettings settings = short_settings();
  settings.guard.connections_max = 2;
  start(settings);
  auto working = connect_silently(2, "127.0.0.2");
  for (const auto& client : working) ASSERT_TRUE(client->send(get("/api/v1/slow")));
  std::this_thread::sleep_for(milliseconds(50));
  RawClient other(port(), "127.0.0.3");
  EXPECT_EQ(other.read_to_end(), "");
  for (const auto& client : working) {
    const auto answer = client->read_answer();
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->body, "late");
  }
}

TEST_F(Guard, FiveHundredIdleConnectionsDelayNobodyByASecond) {
  ServerSettings settings = short_settings();
  settings.workers = 64;
  settings.guard.connections_max = 60;
  settings.guard.connections_per_peer_max = 32;
  settings.guard.header = kLong * 10;
  start(settings);
  std::vector<std::unique_ptr<RawClient>> idle;
  for (int address = 10; address < 20; ++address) {
    auto more = connect_silently(50, "127.0.0." + std::to_string(address));
    std::move(more.begin(), more.end(), std::back_inserter(idle));
  }
  const auto began = steady_clock::now();
  RawClient technician(port(), "127.0.0.2");
  ASSERT_TRUE(technician.send(get("/")));
  const auto answer = technician.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
  EXPECT_LT(since(began), milliseconds(1000));
  const GuardCounters counted = server_->counters().guard;
  EXPECT_EQ(counted.admitted + counted.refused_full + counted.refused_peer, 501U);
  EXPECT_EQ(counted.admitted - counted.cut_for_others, 60U);
  EXPECT_GT(counted.refused_full, 0U);
  ASSERT_TRUE(technician.send(get("/"))) << "and stays";
  EXPECT_TRUE(technician.read_answer());
}

TEST_F(Guard, ClosesAConnectionTooManyInAll) {
  ServerSettings settings = short_settings();
  settings.guard.connections_max = 2;
  settings.guard.header = kLong;
  start(settings);
  const auto held = connect_silently(2);
  RawClient third(port());
  EXPECT_EQ(third.read_to_end(kLong / 2), "");
  EXPECT_EQ(server_->counters().guard.refused_full, 1U);
}

TEST_F(Guard, APlaceIsFreeAgainWhenItsConnectionEnds) {
  ServerSettings settings = short_settings();
  settings.guard.connections_per_peer_max = 2;
  start(settings);
  for (int i = 0; i < 20; ++i) {
    const auto answer = ask_once(head("GET /", "Connection: close\r\n"));
    ASSERT_TRUE(answer) << i;
    EXPECT_EQ(answer->status, 200);
  }
  EXPECT_EQ(server_->counters().guard.refused_peer, 0U);
}

TEST_F(Guard, StopsSoonWithIdleSilentAndHalfSentConnections) {
  ServerSettings settings = short_settings();
  settings.guard.header = settings.guard.idle = settings.guard.body = milliseconds(20000);
  start(settings);
  const auto silent = connect_silently(3);
  RawClient idle(port());
  ASSERT_TRUE(idle.send(get("/")));
  ASSERT_TRUE(idle.read_answer());
  RawClient half(port());
  ASSERT_TRUE(half.send(
      head("POST /api/v1/echo", "Content-Type: application/json\r\nContent-Length: 10\r\n") + "{"));
  std::this_thread::sleep_for(milliseconds(50));
  EXPECT_LT(time_to_stop(), milliseconds(1000));
  const auto answer = half.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 503);
  EXPECT_EQ(idle.read_to_end(), "");
  EXPECT_EQ(echoes_, 0);
}

TEST_F(Guard, StoppingLetsAHandlerFinishAndItsAnswerOut) {
  RawClient client(port());
  ASSERT_TRUE(client.send(get("/api/v1/slow")));
  std::this_thread::sleep_for(milliseconds(50));
  EXPECT_LT(time_to_stop(), milliseconds(1000));
  const auto answer = client.read_answer();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->body, "late");
  EXPECT_TRUE(answer->closes());
}

TEST_F(Guard, StopsSoonUnderLoadAndEveryAnswerGivenIsWhole) {
  constexpr int kClients = 16;
  std::atomic<bool> is_over = false;
  std::atomic<int> answered = 0;
  std::vector<std::thread> clients;
  clients.reserve(kClients);
  for (int i = 0; i < kClients; ++i) {
    clients.emplace_back([&] {
      RawClient client(port());
      while (!is_over && client.send(post("/api/v1/echo", "{}"))) {
        const auto answer = client.read_answer();
        if (!answer) {
          return;
        }
        answered += answer->status == 200 ? 1 : 0;
      }
    });
  }
  std::this_thread::sleep_for(milliseconds(150));
  EXPECT_LT(time_to_stop(), milliseconds(1000));
  is_over = true;
  for (std::thread& client : clients) {
    client.join();
  }
  EXPECT_GT(answered, kClients);
  // A connection may end between the handler and the client's reading, but not for many.
  EXPECT_LE(echoes_ - answered, kClients);
}

TEST_F(Guard, StoppingTwiceIsStoppingOnce) {
  server_->stop();
  EXPECT_LT(time_to_stop(), milliseconds(1000));
}

}  // namespace
}  // namespace benchwarden::http
