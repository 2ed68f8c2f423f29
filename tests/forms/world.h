#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "forms/submission.h"

namespace benchwarden::forms {

/// The project's own definitions, read from disk once.
const Catalog& real_catalog();
/// Everything under forms/, as data files.
const base::DataFiles& real_files();

/// Digests of two files that were sent in.
inline const std::string kPhoto(64, 'a');
inline const std::string kNote(64, 'b');

/// Answers for the workshop in validation tests. What stands there from the start:
/// container w1, w2, rag-bin, rag-drum in use; w3 sealed, w4 retired; cylinder n1, n4 retired;
/// tool r1, r2 withdrawn; gauge g1; stream oil; carrier c1. Now is 2026-11-25T09:00:00Z.
class World : public Surroundings {
 public:
  World();
  [[nodiscard]] base::Instant now() const override { return now_; }
  /// In UTC.
  [[nodiscard]] base::CivilDate day_of(base::Instant moment) const override;
  [[nodiscard]] std::string person_role() const override { return role; }
  [[nodiscard]] bool person_may(std::string_view competence) const override {
    return competences.contains(competence);
  }
  [[nodiscard]] std::optional<Thing> thing(std::string_view thing_class,
                                           std::string_view id) const override;
  [[nodiscard]] std::optional<Target> target(const base::Uuid& id) const override;

  [[nodiscard]] Ties ties(std::string_view thing_class, std::string_view id) const override {
    const auto found = tied.find(std::string(thing_class) + "/" + std::string(id));
    return found == tied.end() ? Ties{} : found->second;
  }

  [[nodiscard]] std::vector<ToldStage> stages(
      std::string_view collection, const std::optional<base::Uuid>& without) const override;
  [[nodiscard]] std::vector<Told> told(std::string_view thing_class, std::string_view id,
                                       const std::optional<base::Uuid>& without) const override;
  [[nodiscard]] std::optional<Log> log(std::string_view container,
                                       const std::optional<base::Uuid>& before) const override;

  /// Any month is closed that stands in `closed`; its figures have the digest of nothing, from 10
  /// entries to the 12 there are. The book begins in June 2026.
  [[nodiscard]] MonthStanding month(base::CivilMonth month,
                                    const std::optional<base::Uuid>& without) const override;
  [[nodiscard]] std::optional<std::string> digest_at(base::CivilMonth month,
                                                     std::uint64_t book_size) const override;

  [[nodiscard]] std::vector<Hold> holds(
      const std::optional<base::Uuid>& /*without*/) const override {
    return held;
  }

  [[nodiscard]] bool person_verified() const override { return verified; }
  [[nodiscard]] std::optional<Claim> claim(std::uint64_t number) const override {
    const auto found = claims.find(number);
    return found == claims.end() ? std::nullopt : std::optional(found->second);
  }

  [[nodiscard]] bool knows_attachment(const std::string& digest) const override {
    return digest == kPhoto || digest == kNote;
  }

  [[nodiscard]] std::vector<Suspicion> suspected(std::string_view container) const override {
    const auto found = suspicions.find(container);
    return found == suspicions.end() ? std::vector<Suspicion>() : found->second;
  }

  [[nodiscard]] bool stands(const std::string& finding) const override { return finding == "f-7"; }

  /// Puts an accepted submission where a correction can find it; returns its id.
  std::string record(const std::string& submission);

  std::vector<std::string> closed{"2026-09"};  ///< months
  std::vector<Hold> held;                      ///< none from the start
  std::string role = "manager";
  bool verified = true;
  /// By number. The person's own: 3 and 4 are open, 5 came with the PIN, 6 was answered for. 7 is
  /// another's.
  std::map<std::uint64_t, Claim> claims{{3, {true, false, true}},
                                        {4, {true, false, true}},
                                        {5, {true, true, false}},
                                        {6, {true, false, false}},
                                        {7, {false, false, true}}};
  std::set<std::string, std::less<>> competences;  ///< of the person
  std::map<std::string, Thing> things;             ///< by "container/w1"
  std::map<std::string, Target> targets;           ///< by UUID text
  std::map<std::string, Ties> tied;                ///< by "stream/oil"; nothing for the others
  std::map<std::string, Log> logs;                 ///< by container; nobody can tell of the others
  std::map<std::string, std::vector<Suspicion>, std::less<>> suspicions;  ///< by container
  /// By collection; w1 and w3 are taken in c, and w3 in c-2026-11, under N 4711.
  std::map<std::string, std::vector<ToldStage>, std::less<>> collections;
  /// By "event/e1"; stuck part s1 was opened, s2 opened and closed, and event e1 recorded.
  std::map<std::string, std::vector<Told>> used;

 private:
  base::Instant now_;
};

inline constexpr const char* kId = "0193619e-0a3b-7c44-8d21-5b0f6c2f1a01";
inline constexpr const char* kOtherId = "0193619e-0a3b-7c44-8d21-5b0f6c2f1a02";

/// Containers taken under one document.
Surroundings::ToldStage told_taken(const std::string& collection, const std::string& document,
                                   const std::vector<std::string>& containers, std::string_view at);

base::Json json(const std::string& text);
/// A submission with id kId at 2026-11-25T09:33:56+01:00; `more` is further members, with their
/// leading comma.
std::string submit(const std::string& kind, const std::string& fields,
                   const std::string& more = "");
/// Oil drained into w1.
std::string drained(const std::string& volume_ml, const std::string& more = "");
/// 62 mL drained into w1, with further fields.
std::string drained_and(const std::string& fields, const std::string& more = "");
/// A correction of kId under the id kOtherId, with a reason.
std::string correct(const std::string& fields, const std::string& more = "");

/// "/fields/volume_ml impossible" for every refusal, in order; empty when it was accepted.
std::vector<std::string> refusals(const std::string& submission, const World& world);
/// The accepted content; fails the test with the refusals otherwise.
entries::Content accept(const std::string& submission, const World& world);
/// The value of a field as it stands in the leaf: `62.5`, `"w1"`; "" when absent.
std::string value_of(const entries::Content& content, const std::string& field);

/// One good submission for every kind and every variant that differs in kind.
struct Sample {
  std::string name;
  std::string submission;
  std::string role = "manager";
};
const std::vector<Sample>& samples();

/// The submission that says what an accepted content says, in the units as typed.
base::Json resubmission(const Accepted& accepted);

}  // namespace benchwarden::forms
