#pragma once

#include <cstdint>

#include "forms/submission.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What the validator asks of the world, answered from the tallies and the book at this moment;
/// entries to be corrected are answered for as they stood before entry `before_seq`.
class BookSurroundings : public forms::Surroundings {
 public:
  BookSurroundings(const Ports& ports, const Actor& actor, std::uint64_t before_seq = UINT64_MAX)
      : ports_(ports), actor_(actor), now_(ports.clock.now()), before_seq_(before_seq) {}

  [[nodiscard]] base::Instant now() const override { return now_; }
  [[nodiscard]] base::CivilDate day_of(base::Instant moment) const override {
    return zone_of(*ports_.live.view()).date_of(moment);
  }
  [[nodiscard]] std::string person_role() const override { return actor_.role; }
  [[nodiscard]] bool person_verified() const override { return actor_.verified; }
  [[nodiscard]] bool person_may(std::string_view competence) const override;
  [[nodiscard]] std::optional<forms::Thing> thing(std::string_view thing_class,
                                                  std::string_view id) const override;
  [[nodiscard]] std::optional<Target> target(const base::Uuid& id) const override;
  [[nodiscard]] Ties ties(std::string_view thing_class, std::string_view id) const override;
  [[nodiscard]] std::vector<ToldStage> stages(
      std::string_view collection, const std::optional<base::Uuid>& without) const override;
  [[nodiscard]] bool knows_attachment(const std::string& digest) const override;
  [[nodiscard]] bool stands(const std::string& finding) const override;
  [[nodiscard]] std::vector<Suspicion> suspected(std::string_view container) const override;
  [[nodiscard]] std::vector<Told> told(std::string_view thing_class, std::string_view id,
                                       const std::optional<base::Uuid>& without) const override;
  [[nodiscard]] MonthStanding month(base::CivilMonth month,
                                    const std::optional<base::Uuid>& without) const override;
  [[nodiscard]] std::optional<std::string> digest_at(base::CivilMonth month,
                                                     std::uint64_t book_size) const override;
  [[nodiscard]] std::vector<Hold> holds(const std::optional<base::Uuid>& without) const override;
  [[nodiscard]] std::optional<Claim> claim(std::uint64_t number) const override;
  [[nodiscard]] std::optional<Log> log(std::string_view container,
                                       const std::optional<base::Uuid>& before) const override;

 private:
  /// 0 where there is none, which is the number of no entry.
  [[nodiscard]] std::uint64_t number_of(const std::optional<base::Uuid>& entry) const;
  /// Whether later entries name the thing this one entered into the register, or all rest on it.
  [[nodiscard]] bool is_relied_on(const entries::Entry& entry, std::uint64_t seq) const;

  const Ports& ports_;
  const Actor& actor_;
  base::Instant now_;
  std::uint64_t before_seq_;
};

}  // namespace benchwarden::workshop
