#pragma once

#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {

/// Sends made-up entries of every kind into a workshop, drawn from the form definitions alone: a
/// new kind is among them as soon as it has a form. Many are late, dated in any order, corrected
/// or struck out. What a form refuses is mended by what the refusal says, a few times, or dropped.
/// The same seed makes the same entries.
class FormEntries {
 public:
  FormEntries(TestWorkshop& workshop, std::uint64_t seed);

  /// Entries of this kind are made no more.
  void leave_out(const std::string& kind) { left_out_ = kind; }
  /// Until so many more were accepted.
  void send(int accepted);

  /// How many of each kind were accepted; strike-outs under "struck-out".
  [[nodiscard]] const std::map<std::string, int>& accepted() const { return accepted_; }
  [[nodiscard]] int late() const { return late_; }

  /// 0 … below - 1, the same on every library.
  std::uint64_t pick(std::uint64_t below) { return random_() % below; }
  /// A moment between the first entries and now.
  base::Instant moment();

 private:
  struct Sent {
    std::string id;
    const forms::Definition* form;
  };

  bool one_in(std::uint64_t count) { return pick(count) == 0; }
  Told fresh();
  Told correction();
  base::JsonObject filled(const forms::Definition& form);
  bool applies(const forms::Conditions& conditions, const base::JsonObject& fields);
  base::Json value(const forms::FieldDefinition& field, const base::JsonObject& beside);
  base::Json amount(const forms::FieldDefinition& field);
  base::Json text(const forms::FieldDefinition& field);
  base::Json id_of(const forms::FieldDefinition& field, const base::JsonObject& beside);
  base::Json finding();
  base::Json rows(const forms::FieldDefinition& field);
  std::string known_thing(const std::string& thing_class);
  std::string date();
  std::string when();
  void mend(base::JsonObject& submission, const std::vector<std::string>& faults);
  bool tried(Told told);
  void note(const base::JsonObject& submission);

  TestWorkshop& workshop_;
  std::mt19937_64 random_;
  base::Instant now_;
  const forms::Definition* form_ = nullptr;  ///< of what is being sent
  std::string left_out_;
  std::vector<Sent> sent_;
  std::map<std::string, int> accepted_;
  std::uint64_t made_ = 0;  ///< ids that came into being by use
  int late_ = 0;
};

}  // namespace benchwarden::workshop
