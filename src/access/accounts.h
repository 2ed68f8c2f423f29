#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "access/access.h"
#include "access/address_line.h"
#include "access/journal.h"
#include "access/lock_out.h"
#include "access/people.h"
#include "access/pepper.h"
#include "access/pin_hasher.h"
#include "access/sessions.h"
#include "access/store.h"

namespace benchwarden::access {

/// Access over access.db. Order of locks: a slot of the hash gate, the store, the session cache.
class Accounts final : public Access {
 public:
  Accounts(std::unique_ptr<Store> store, const Pepper& pepper, const base::Clock& clock,
           const Settings& settings);

  /// Once, before anything else.
  base::Status<> begin();

  base::Result<std::vector<Person>> people() const override;
  base::Result<Person> person(std::string_view id) const override;
  base::Result<Person> add_person(const std::string& name, Role role, const std::string& pin,
                                  std::string_view by) override;
  base::Status<> reset_pin(std::string_view id, const std::string& pin,
                           std::string_view by) override;
  base::Status<> deactivate(std::string_view id, std::string_view by) override;
  base::Status<> erase(std::string_view id, std::string_view by) override;
  base::Status<> activate(std::string_view id, std::string_view by) override;
  base::Status<> leave_out_ids(const std::vector<std::string>& taken) override;

  base::Result<NewSession, SignInRefusal> sign_in(std::string_view person, const Secret& secret,
                                                  const From& from) override;
  base::Result<NewSession, SignInRefusal> confirm(std::string_view token, const Secret& secret,
                                                  const From& from) override;
  base::Status<> set_passphrase(std::string_view id, const std::string& passphrase,
                                std::string_view keep, std::string_view by) override;
  base::Result<bool> has_passphrase(std::string_view id) const override;
  void turn_away() override { hasher_->close(); }
  base::Result<Session> session(std::string_view token) const override;
  base::Status<> sign_out(std::string_view token) override;
  base::Result<std::vector<ListedSession>> sessions() const override;
  base::Result<ListedSession> listed_session(std::string_view id) const override;
  base::Status<> end_session(std::string_view id, std::string_view by) override;

  base::Result<std::optional<std::string>> setup_code() override;
  base::Result<Person> first_manager(const std::string& code, const std::string& name,
                                     const std::string& pin) override;

  base::Result<NewCalendarFeed> make_calendar_feed(std::string_view person) override;
  base::Status<> end_calendar_feed(std::string_view person) override;
  base::Result<std::optional<base::Instant>> calendar_feed_made_at(
      std::string_view person) const override;
  base::Status<> check_calendar_secret(std::string_view secret) const override;

  base::Result<NewPairing> begin_pairing(const std::string& name, std::string_view by) override;
  base::Result<NewDevice> pair_device(const std::string& code) override;
  base::Result<Device> device(std::string_view secret) const override;
  base::Result<std::vector<ListedDevice>> devices() const override;
  base::Status<> end_device(std::string_view id, std::string_view by) override;
  base::Status<> leave_out_devices(const std::vector<std::string>& taken) override;

  base::Result<Inspection> give_inspection(std::string_view id, const Inspection& wanted,
                                           std::string_view by) override;
  base::Status<> end_inspection(std::string_view id, std::string_view by) override;
  base::Result<std::optional<Inspection>> inspection_of(std::string_view id) const override;
  base::Result<NewScriptToken> make_token(const std::string& name, TokenScope scope,
                                          base::Instant ends_at, std::string_view by) override;
  base::Result<std::vector<ScriptToken>> tokens() const override;
  base::Status<> end_token(std::string_view id, std::string_view by) override;
  base::Result<Session> script_session(std::string_view secret) const override;

  base::Result<std::vector<Refusal>> refusals() const override;
  base::Result<std::vector<Change>> changes() const override;
  base::Result<std::vector<UntoldChange>> untold_changes() const override;
  base::Status<> mark_told(std::int64_t number) override;
  base::Status<> note_refused_requests(const std::vector<RefusedRequest>& lines,
                                       const std::vector<RefusedCount>& counts) override;
  base::Result<AccessLog> access_log(base::Instant from, base::Instant until) const override;
  base::Result<std::optional<base::Instant>> first_counted() const override;
  base::Status<> forget_counts(base::Instant before) override;
  [[nodiscard]] HashLoad hash_load() const override;

 private:
  struct Try {
    std::optional<StoredPin> pin;             ///< none: nobody to sign in
    std::optional<std::int64_t> shut_out_ms;  ///< not to be tried now
  };
  base::Result<Try> charge(std::string_view person, Secret::Kind kind, const From& from,
                           base::Instant now);
  /// The secret as it is stored, after the one given was found right.
  base::Result<StoredPin, SignInRefusal> check_secret(std::string_view person, const Secret& secret,
                                                      const From& from, base::Instant now);
  /// kForbidden: the PIN was set anew, or the person deactivated, while it was being checked.
  base::Status<> accept(sqlite::Database& database, std::string_view person, const StoredPin& pin,
                        const From& from, base::Instant now);
  base::Status<> refuse_wrong(const Try& tried, const From& from, base::Instant now);
  base::Status<> note_refused(sqlite::Database& database, const NewRefusal& refusal);
  /// None: an inspector to whom no access is given now, which is noted.
  base::Result<std::optional<NewSession>> admit(std::string_view person, const StoredPin& pin,
                                                const From& from, base::Instant now);
  base::Result<bool> may_come_in(sqlite::Database& database, const Person& person, const From& from,
                                 base::Instant now);
  base::Status<> check_passphrases_of_day(sqlite::Database& database, std::string_view id,
                                          std::string_view by);
  base::Result<std::string> hash_pin(const std::string& pin);
  base::Result<Person> enter(sqlite::Database& database, const std::string& name, Role role,
                             const std::string& pin_hash, std::string_view by);
  base::Status<> note(sqlite::Database& database, std::string_view by, std::string_view id,
                      std::string_view what, const About& about = {});
  base::Result<std::optional<NewDevice>> try_to_pair(sqlite::Database& database,
                                                     const std::string& code);
  base::Result<std::optional<std::string>> renew_code(sqlite::Database& database);
  base::Status<> show_next_code();

  Settings settings_;
  const base::Clock& clock_;
  Pepper pepper_;
  std::unique_ptr<Store> store_;
  std::unique_ptr<Sessions> sessions_;
  std::unique_ptr<PinHasher> hasher_;
  AddressLine line_;
  std::string stand_in_hash_;
  std::optional<base::Instant> code_made_;  ///< the set-up code; guarded by the store
};

}  // namespace benchwarden::access
