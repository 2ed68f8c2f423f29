// The bytes that come over a connection to the server with the whole interface; {host}, {manager}
// and {technician} in them stand for what the server answers to and for tokens of sessions. Every
// answer is well formed and none is a fault of our own, errors are problem details (RFC 9457), and
// the server goes on serving.
#include <cstdlib>
#include <memory>
#include <set>

#include "base/json.h"
#include "fuzz/targets.h"
#include "soak/served_workshop.h"

namespace benchwarden::fuzz {
namespace {

constexpr int kRunsMax = 2'000;
constexpr std::size_t kConnections = 4;

/// A server that is begun anew after so many runs, as its book may grow.
class Counter {
 public:
  const soak::ServedWorkshop& served() {
    if (!served_ || ++runs_ == kRunsMax || !let_in()) {
      served_.reset();
      served_ = std::make_unique<soak::ServedWorkshop>(kConnections);
      runs_ = 0;
      let_in();
    }
    return *served_;
  }
  [[nodiscard]] std::string filled(std::string text) const {
    for (const auto& [place, value] : {std::pair{"{host}", served_->host()},
                                       {"{manager}", manager_},
                                       {"{technician}", technician_}}) {
      const std::string_view name(place);
      for (std::size_t at = 0; (at = text.find(name, at)) != std::string::npos;) {
        text.replace(at, name.size(), value);
        at += value.size();
      }
    }
    return text;
  }

 private:
  /// Signs in again who was signed out; false when somebody cannot be.
  bool let_in() {
    for (auto& [person, token] :
         {std::pair<const char*, std::string&>{"p1", manager_}, {"p3", technician_}}) {
      if (!served_->lets_in(token)) token = served_->sign_in(person);
      if (token.empty()) return false;
    }
    return true;
  }

  std::unique_ptr<soak::ServedWorkshop> served_;
  std::string manager_;
  std::string technician_;
  int runs_ = 0;
};

/// What the book of problems knows, and what the server itself answers with.
bool is_known(int status) {
  static const std::set<int> kKnown{100, 200, 201, 204, 304, 400, 401, 403, 404, 405, 408,
                                    409, 411, 413, 415, 417, 421, 422, 429, 501, 503};
  return kKnown.contains(status);
}

std::string header(std::string_view head, std::string_view name) {
  const std::size_t at = head.find("\r\n" + std::string(name) + ": ");
  if (at == std::string_view::npos) return "";
  const std::size_t from = at + name.size() + 4;
  return std::string(head.substr(from, head.find("\r\n", from) - from));
}

std::string fault_of_error(int status, std::string_view head, std::string_view body) {
  if (status < 400 || header(head, "Content-Type").empty()) return "";
  if (header(head, "Content-Type") != "application/problem+json") return "an error of another type";
  const auto json = base::parse_json(body);
  const base::Json* type = json ? json->find("type") : nullptr;
  return type != nullptr && type->string() != nullptr ? "" : "an error that is no problem";
}

/// One answer after another, each as long as it says; that to a HEAD has no body.
std::string fault_of(std::string_view bytes, bool may_lack_body) {
  constexpr std::string_view kStart = "HTTP/1.";
  while (!bytes.empty()) {
    const std::size_t end = bytes.find("\r\n\r\n");
    if (!bytes.starts_with(kStart) || end == std::string_view::npos) return "no head of an answer";
    const std::string_view head = bytes.substr(0, end + 2);
    const int status = std::atoi(std::string(head.substr(kStart.size() + 2, 3)).c_str());
    if (!is_known(status)) return "answered " + std::to_string(status);
    bytes.remove_prefix(end + 4);
    const std::size_t length = std::strtoul(header(head, "Content-Length").c_str(), nullptr, 10);
    if (may_lack_body && (bytes.empty() || bytes.starts_with(kStart))) continue;
    if (bytes.size() < length) return "an answer that is cut off";
    const std::string fault = fault_of_error(status, head, bytes.substr(0, length));
    if (!fault.empty()) return fault;
    bytes.remove_prefix(length);
  }
  return "";
}

std::string fault_of_health(const soak::ServedWorkshop& served) {
  http::RawClient client(served.port());
  const bool is_sent = client.send(served.request("GET", "/api/v1/health", ""));
  const auto answer = client.read_answer();
  return is_sent && answer && answer->status == 200 ? "" : "the server does not serve any more";
}

}  // namespace

std::string http_fault(std::string_view input) {
  static Counter counter;
  const soak::ServedWorkshop& served = counter.served();
  const std::string bytes = counter.filled(std::string(input));
  http::RawClient client(served.port());
  static_cast<void>(client.send(bytes));  // the server may end it in the middle
  client.end_sending();
  const auto answers = client.read_to_end();
  if (!answers) return "the connection does not end";
  std::string fault = fault_of(*answers, bytes.find("HEAD ") != std::string::npos);
  if (!fault.empty()) return fault + "\n" + *answers;
  if (!served.faults().empty()) return served.faults().front();
  static unsigned runs = 0;
  constexpr unsigned kLookEvery = 16;
  return ++runs % kLookEvery == 0 ? fault_of_health(served) : "";
}

}  // namespace benchwarden::fuzz
