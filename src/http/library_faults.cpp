#include "http/library_faults.h"

#include <Poco/ErrorHandler.h>
#include <Poco/Exception.h>

#include <atomic>
#include <exception>

namespace benchwarden::http {
namespace {

class CountingHandler : public Poco::ErrorHandler {
 public:
  void exception(const Poco::Exception&) override { ++count_; }
  void exception(const std::exception&) override { ++count_; }
  void exception() override { ++count_; }
  [[nodiscard]] std::uint64_t count() const { return count_; }

 private:
  std::atomic<std::uint64_t> count_ = 0;
};

CountingHandler& handler() {
  // The library keeps a pointer to one handler for the whole process, and its threads may still
  // report while the process ends: so it is one, and never destroyed.
  static CountingHandler& only = *new CountingHandler;  // NOLINT(cppcoreguidelines-*)
  return only;
}

}  // namespace

void count_library_faults() { Poco::ErrorHandler::set(&handler()); }

std::uint64_t library_faults_counted() { return handler().count(); }

}  // namespace benchwarden::http
