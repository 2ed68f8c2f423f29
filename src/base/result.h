#pragma once

#include <cassert>
#include <string>
#include <utility>
#include <variant>

namespace benchwarden::base {

/// What went wrong, in the few classes a caller can act on.
enum class ErrorCode {
  kInvalid,      ///< the input cannot be understood; the detail names what would be accepted
  kNotFound,     ///< no such thing
  kConflict,     ///< the same id with other content, or a state that forbids it
  kUnavailable,  ///< a passing fault of disk or load: the same call may succeed later
  kDamaged,      ///< stored bytes do not match their hashes or their format
  kForbidden,    ///< understood, and not allowed to this caller
  kInternal,     ///< our own fault: nothing is wrong with what was asked for
};

struct Error {
  ErrorCode code = ErrorCode::kInvalid;
  std::string detail;
};

/// A value or the reason why there is none. Exceptions are kept for out-of-memory and a broken
/// environment at start.
template <class T, class E = Error>
class [[nodiscard]] Result {
 public:
  // Implicit on purpose: `return value;` and `return Error{...};` read best.
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}  // NOLINT
  Result(E error) : state_(std::in_place_index<1>, std::move(error)) {}  // NOLINT

  [[nodiscard]] bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }

  const T& value() const& {
    assert(ok());
    return *std::get_if<0>(&state_);
  }
  T& value() & {
    assert(ok());
    return *std::get_if<0>(&state_);
  }
  T&& value() && {
    assert(ok());
    return std::move(*std::get_if<0>(&state_));
  }
  const E& error() const {
    assert(!ok());
    return *std::get_if<1>(&state_);
  }

  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }

 private:
  std::variant<T, E> state_;
};

struct Done {};
/// For work that has no value to give back: `return base::Done{};`.
template <class E = Error>
using Status = Result<Done, E>;

}  // namespace benchwarden::base
