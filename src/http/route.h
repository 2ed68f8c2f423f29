#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "access/access.h"
#include "base/gate.h"
#include "http/message.h"
#include "http/scope.h"

namespace benchwarden::http {

enum class Method { kGet, kPost, kPut, kPatch, kDelete };
std::string_view method_name(Method method);
/// HEAD is served as GET. Nothing for a method no route can have.
std::optional<Method> method_from_name(std::string_view name);

/// Who may call a route.
class Who {
 public:
  /// Everybody, signed in or not.
  static constexpr Who open() { return Who(kOpenBit); }
  /// Everybody who is signed in.
  static constexpr Who any() {
    return only({access::Role::kTechnician, access::Role::kManager, access::Role::kInspector});
  }
  static constexpr Who only(std::initializer_list<access::Role> roles) {
    unsigned bits = 0;
    for (const access::Role role : roles) {
      bits |= bit_of(role);
    }
    return Who(bits);
  }

  /// Also a paired device, whoever is signed in on it, or nobody.
  [[nodiscard]] constexpr Who or_device() const { return Who(bits_ | kDeviceBit); }

  /// Only where the person showed within the last minutes that it is they: for weighty acts.
  [[nodiscard]] constexpr Who confirmed() const { return Who(bits_ | kConfirmedBit); }

  /// Also the token of a script whose maker is among them; of one that may record only with the
  /// second. Nothing else lets a token in.
  [[nodiscard]] constexpr Who or_scripts() const { return Who(bits_ | kScriptBit); }
  [[nodiscard]] constexpr Who or_recording_scripts() const {
    return Who(bits_ | kRecordingScriptBit);
  }
  [[nodiscard]] constexpr bool admits_script(access::TokenScope scope) const {
    const bool records = scope == access::TokenScope::kReadsAndEntries;
    return (bits_ & kScriptBit) != 0 || (records && (bits_ & kRecordingScriptBit) != 0);
  }

  [[nodiscard]] constexpr bool wants_confirmation() const { return (bits_ & kConfirmedBit) != 0; }
  [[nodiscard]] constexpr bool admits_devices() const { return (bits_ & kDeviceBit) != 0; }
  [[nodiscard]] constexpr bool is_open() const { return (bits_ & kOpenBit) != 0; }
  [[nodiscard]] constexpr bool admits(access::Role role) const {
    return is_open() || (bits_ & bit_of(role)) != 0;
  }
  [[nodiscard]] constexpr bool is_nobody() const { return bits_ == 0; }

 private:
  static constexpr unsigned kOpenBit = 1U;
  static constexpr unsigned kDeviceBit = 2U;
  static constexpr unsigned kConfirmedBit = 32U;
  static constexpr unsigned kScriptBit = 64U;
  static constexpr unsigned kRecordingScriptBit = 128U;
  static constexpr unsigned bit_of(access::Role role) { return 4U << static_cast<unsigned>(role); }
  constexpr explicit Who(unsigned bits) : bits_(bits) {}

  unsigned bits_;
};

/// Whether a call may change anything. A GET never does.
enum class Effect { kReads, kWrites };

struct SignedIn {
  access::Session session;
  std::string token;
};

/// Who calls, as far as it was shown and the route asks for it.
struct Caller {
  std::optional<SignedIn> who;           ///< none where the route is open
  std::optional<access::Device> device;  ///< the paired one it comes from
};

/// What the route and the sign-in add to a request.
class Context {
 public:
  using Parts = std::vector<std::pair<std::string, std::string>>;

  Context(Parts parts, Caller caller) : parts_(std::move(parts)), caller_(std::move(caller)) {}

  /// The part of the path that {name} stands for. Asserts that the route has it.
  [[nodiscard]] const std::string& part(std::string_view name) const;
  /// Asserts that the route asks everybody to sign in.
  [[nodiscard]] const SignedIn& who() const;
  [[nodiscard]] const Caller& caller() const { return caller_; }

 private:
  Parts parts_;
  Caller caller_;
};

using Handler = std::function<Response(const Request&, const Context&)>;

/// The body of a route that takes other bytes than a short JSON text.
struct OwnBody {
  std::vector<std::string> types;  ///< of Content-Type, in lower case
  std::size_t bytes_max = 0;
  std::chrono::milliseconds time{0};   ///< from the end of the head to the end of the body
  std::shared_ptr<base::Gate> places;  ///< bodies taken in at once, until they are answered
};

struct Route {
  Method method;
  /// "/api/v1/reports/issued/{id}.pdf": at most one {name} between two slashes.
  std::string pattern;
  Who who;
  Effect effect;
  Handler handler;
  std::vector<std::string> query = {};  ///< the names that may stand in it; others are refused
  /// None: application/json, with the length and time the server is set to. With one the person is
  /// asked for before the body is read, too.
  std::optional<OwnBody> body = std::nullopt;
  Shows shows = Shows::kWhole;
};

}  // namespace benchwarden::http
