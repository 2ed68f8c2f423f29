#pragma once

#include <future>
#include <system_error>
#include <utility>

namespace benchwarden::base {

/// The future of what `work` gives: in a thread of its own, or, where none can be had, in the one
/// that asks for it.
template <typename Work>
auto beside(Work work) {
  try {
    return std::async(std::launch::async, work);
  } catch (const std::system_error&) {
    return std::async(std::launch::deferred, std::move(work));
  }
}

}  // namespace benchwarden::base
