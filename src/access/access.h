#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "access/access_log.h"
#include "access/inspection.h"
#include "access/place.h"
#include "access/script_token.h"
#include "access/settings.h"
#include "base/clock.h"
#include "base/result.h"

namespace benchwarden::access {

enum class Role { kTechnician, kManager, kInspector };
std::string_view role_name(Role role);
std::optional<Role> role_from_name(std::string_view name);

struct Person {
  std::string id;    ///< opaque: "p1"; the only thing the book knows of a person
  std::string name;  ///< may be erased after retention
  Role role = Role::kTechnician;
  bool active = true;
};

struct Session {
  std::string person;
  std::string name;
  Role role = Role::kTechnician;
  base::Instant expires_at;  ///< unless it is used before; never past its absolute end
  std::string id = {};       ///< "s1"; lets nobody in
  Place place = Place::kElsewhere;
  /// Until then its person counts as having shown just now who they are.
  base::Instant confirmed_until = {};
  bool is_confirmed = false;                  ///< at the moment it was asked for
  std::optional<Inspection> inspection = {};  ///< of an inspector: none without
  std::optional<TokenScope> script = {};      ///< where it is a token's, and no person is there
};
/// What a person shows at signing in.
struct Secret {
  enum class Kind {
    kPin,         ///< where only who was let near it can try: paired devices, the machine itself
    kPassphrase,  ///< anywhere
  };
  Kind kind = Kind::kPin;
  std::string text;
};

struct NewSession {
  Session session;
  std::string token;  ///< 256 bits, base64url, 43 characters; only its SHA-256 is stored
};

/// A session that has not ended, as it is listed; when it was last seen is known to the minute.
struct ListedSession {
  std::string id;
  std::string person;
  Place place = Place::kElsewhere;
  std::optional<std::string> device = {};  ///< "d1", where it was begun on a paired one
  std::optional<std::string> device_name = {};
  base::Instant began_at;
  base::Instant last_seen_at;
};

struct SignInRefusal {
  enum class Reason {
    kWrong,       ///< wrong PIN, unknown or inactive person: one answer for all
    kLockedOut,   ///< too many wrong PINs
    kOneAtATime,  ///< a sign-in from the same address is under way
    kNoAccess,    ///< the right PIN, of an inspector to whom no access is given now
    kBusy,        ///< too many are signing in at this moment
    kFault,       ///< access.db could not be read or written
  };
  Reason reason = Reason::kWrong;
  /// Whole seconds, rounded up; none with kWrong.
  std::optional<std::int64_t> retry_after_s;
  std::string detail;
};

/// One line of the list of refused sign-ins.
struct Refusal {
  base::Instant at;
  std::optional<std::string> person;  ///< none: nobody of that id, which is then not kept
  std::string reason;  ///< wrong-pin, locked-out, unknown-person, no-access, host, origin, rate …
  std::string address = {};
};

/// One line of the list of changes to people and PINs.
struct Change {
  base::Instant at;
  std::string by;                     ///< a person's id, "machine" (its command line) or "setup"
  std::string person;                 ///< whom it changed
  std::string what;                   ///< person-added, pin-reset, deactivated, erased, …
  std::optional<std::string> device;  ///< the name of the one it was about
  std::optional<std::string> thing;   ///< the id of the device or session it was about
};

/// A tablet that was paired: it may hand in what people recorded on it without their PIN.
struct Device {
  std::string id;  ///< "d1"; the only thing the book knows of a device
  std::string name;
};
struct NewDevice {
  Device device;
  std::string secret;  ///< 256 bits, base64url, 43 characters; only its SHA-256 is stored
};
struct ListedDevice {
  Device device;
  base::Instant paired_at;
  std::string paired_by;  ///< the manager who made the code
  base::Instant last_seen_at;
  std::optional<base::Instant> ended_at;
};
struct NewPairing {
  std::string code;  ///< one-time; "ABCDEFGH"
  base::Instant ends_at;
};

struct NewCalendarFeed {
  std::string secret;  ///< 256 bits, base64url, 43 characters; only its SHA-256 is stored
  base::Instant made_at;
};

/// People, PINs, sessions: mutable, in its own access.db (mode 0600), never part of the book.
/// Safe to use from many threads, and beside another process with the same folder. `by` is the id
/// of the person acting, or "machine" for the command line. Any call may answer kUnavailable when
/// the disk fails it.
class Access {
 public:
  /// `folder` exists. Makes `folder`/access.db and `folder`/pepper where they are missing.
  /// kInvalid: settings out of range; kDamaged: pepper missing although there are people, or of
  /// the wrong size. `clock` outlives the result.
  static base::Result<std::unique_ptr<Access>> open(const std::filesystem::path& folder,
                                                    const base::Clock& clock,
                                                    const Settings& settings = {});
  Access(const Access&) = delete;
  Access& operator=(const Access&) = delete;
  Access(Access&&) = delete;
  Access& operator=(Access&&) = delete;
  virtual ~Access() = default;

  virtual base::Result<std::vector<Person>> people() const = 0;  ///< the inactive ones, too
  virtual base::Result<Person> person(std::string_view id) const = 0;
  /// kInvalid: name not of 1 to 80 characters, PIN not 6 to 12 digits, or one that is all the same
  /// or runs up or down. kConflict: an active person has that name. kUnavailable: see kBusy.
  virtual base::Result<Person> add_person(const std::string& name, Role role,
                                          const std::string& pin, std::string_view by) = 0;
  /// Also ends the lock-out, the passphrase and all sessions of the person. kConflict: not active.
  virtual base::Status<> reset_pin(std::string_view id, const std::string& pin,
                                   std::string_view by) = 0;
  /// Also ends all sessions, the calendar feed and the pairing code of the person. kConflict:
  /// nobody else is an active manager.
  virtual base::Status<> deactivate(std::string_view id, std::string_view by) = 0;
  /// Undoes that; the PIN is the one the person had. kConflict: an active person has that name.
  virtual base::Status<> activate(std::string_view id, std::string_view by) = 0;
  /// Takes name and PIN of somebody who is not active out of the file for good; the id stays, and
  /// nobody gets it. kConflict: the person is active.
  virtual base::Status<> erase(std::string_view id, std::string_view by) = 0;
  /// Keeps the ids in `taken`, and all before them, from being given to anybody from now on. What
  /// is no id of ours is passed over.
  virtual base::Status<> leave_out_ids(const std::vector<std::string>& taken) = 0;

  virtual base::Result<NewSession, SignInRefusal> sign_in(std::string_view person,
                                                          const Secret& secret,
                                                          const From& from) = 0;
  /// The PIN or passphrase again, of whoever the session is of: it goes on under another token, and
  /// counts as confirmed for a while. Wrong ones count as at signing in; kWrong, too, where it has
  /// ended.
  virtual base::Result<NewSession, SignInRefusal> confirm(std::string_view token,
                                                          const Secret& secret,
                                                          const From& from) = 0;
  /// Puts a passphrase in place of the one before, if any. The session of `keep`, where it is one
  /// of the person's, goes on; all others of the person end. kInvalid: see check_passphrase;
  /// kConflict: the person set one too often within a day, since the book is told each time.
  virtual base::Status<> set_passphrase(std::string_view id, const std::string& passphrase,
                                        std::string_view keep, std::string_view by) = 0;
  virtual base::Result<bool> has_passphrase(std::string_view id) const = 0;
  /// Before stopping: whoever waits to sign in is told to come again, as is everybody who comes.
  virtual void turn_away() = 0;
  /// Counts as a use. kForbidden: no such session, or it has ended.
  virtual base::Result<Session> session(std::string_view token) const = 0;
  virtual base::Status<> sign_out(std::string_view token) = 0;  ///< done, too, if there is none
  virtual base::Result<std::vector<ListedSession>> sessions() const = 0;  ///< newest first
  /// kNotFound: no such session, or it has ended.
  virtual base::Result<ListedSession> listed_session(std::string_view id) const = 0;
  virtual base::Status<> end_session(std::string_view id, std::string_view by) = 0;

  /// A new one-time code while nobody is entered yet (for the console; it replaces the one
  /// before); none once somebody is.
  virtual base::Result<std::optional<std::string>> setup_code() = 0;
  /// Makes the first manager. kForbidden: wrong or spent code; kConflict: somebody is entered
  /// already; kInvalid as for `add_person`, which costs no try.
  virtual base::Result<Person> first_manager(const std::string& code, const std::string& name,
                                             const std::string& pin) = 0;

  /// A calendar feed is read by whoever knows its secret; a person has at most one. Making one
  /// ends the one before. kNotFound: nobody active has that id.
  virtual base::Result<NewCalendarFeed> make_calendar_feed(std::string_view person) = 0;
  virtual base::Status<> end_calendar_feed(std::string_view person) = 0;  ///< done, too, if none
  /// When the feed of that person was made; none where there is none.
  virtual base::Result<std::optional<base::Instant>> calendar_feed_made_at(
      std::string_view person) const = 0;
  /// kNotFound, after the same work whatever was given: the secret of no feed.
  virtual base::Status<> check_calendar_secret(std::string_view secret) const = 0;

  /// A code that pairs one device under that name; it replaces the one before. kInvalid: as for the
  /// name of a person; kConflict: a paired device has that name; kNotFound: nobody active is `by`.
  virtual base::Result<NewPairing> begin_pairing(const std::string& name, std::string_view by) = 0;
  /// kForbidden, the same for each: a wrong, used, spent or old code, or none made.
  virtual base::Result<NewDevice> pair_device(const std::string& code) = 0;
  /// Counts as being seen. kForbidden: no paired device has that secret, or none any more.
  virtual base::Result<Device> device(std::string_view secret) const = 0;
  virtual base::Result<std::vector<ListedDevice>> devices() const = 0;  ///< the ended ones, too
  /// Its secret lets nothing in from now on, and the sessions begun on it end. Done, too, if it has
  /// ended. kNotFound: no such device.
  virtual base::Status<> end_device(std::string_view id, std::string_view by) = 0;
  /// Keeps the ids in `taken`, and all before them, from being given to any device.
  virtual base::Status<> leave_out_devices(const std::vector<std::string>& taken) = 0;

  /// In place of one that was given before, whose sessions end. The id of `wanted` is not looked
  /// at. kForbidden: it has ended, or is too long; kConflict: no active inspector.
  virtual base::Result<Inspection> give_inspection(std::string_view id, const Inspection& wanted,
                                                   std::string_view by) = 0;
  virtual base::Status<> end_inspection(std::string_view id, std::string_view by) = 0;
  /// The one that has not ended, begun or not.
  virtual base::Result<std::optional<Inspection>> inspection_of(std::string_view id) const = 0;

  /// kForbidden: it would end by now, or too late. kInvalid: as for the name of a person;
  /// kConflict: a token that is good still has that name.
  virtual base::Result<NewScriptToken> make_token(const std::string& name, TokenScope scope,
                                                  base::Instant ends_at, std::string_view by) = 0;
  virtual base::Result<std::vector<ScriptToken>> tokens() const = 0;  ///< the ended ones, too
  /// Done, too, if it has ended. kNotFound: no such token.
  virtual base::Status<> end_token(std::string_view id, std::string_view by) = 0;
  /// Of the maker of the token with that secret. Counts as a use. kForbidden: there is none, it has
  /// ended, or its maker is not active.
  virtual base::Result<Session> script_session(std::string_view secret) const = 0;

  virtual base::Result<std::vector<Refusal>> refusals() const = 0;  ///< newest first
  virtual base::Result<std::vector<Change>> changes() const = 0;    ///< newest first

  /// Changes the book was not told of yet, in their order, and that it was told of one.
  virtual base::Result<std::vector<UntoldChange>> untold_changes() const = 0;
  virtual base::Status<> mark_told(std::int64_t number) = 0;
  /// `counts` are of all, `lines` those to be kept.
  virtual base::Status<> note_refused_requests(const std::vector<RefusedRequest>& lines,
                                               const std::vector<RefusedCount>& counts) = 0;
  /// From one quarter of an hour to another.
  virtual base::Result<AccessLog> access_log(base::Instant from, base::Instant until) const = 0;
  virtual base::Result<std::optional<base::Instant>> first_counted() const = 0;
  virtual base::Status<> forget_counts(base::Instant before) = 0;

  struct HashLoad {
    std::uint64_t made = 0;
    int most_at_once = 0;
  };
  [[nodiscard]] virtual HashLoad hash_load() const = 0;  ///< since `open`

 protected:
  Access() = default;
};

}  // namespace benchwarden::access
