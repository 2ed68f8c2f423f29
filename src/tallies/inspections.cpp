#include "tallies/inspections.h"

#include <algorithm>
#include <utility>

#include "tallies/bytes.h"

namespace benchwarden::tallies {
namespace {

bool is_before(const Check& a, const Check& b) {
  return a.at != b.at ? a.at < b.at : a.seq < b.seq;
}

void place(std::vector<Check>& checks, const Check& check) {
  checks.insert(std::upper_bound(checks.begin(), checks.end(), check, is_before), check);
}

}  // namespace

void Inspections::post(base::Instant at, std::uint64_t seq, const entries::Checks& checks) {
  place(checks_[checks.thing_class][checks.thing], {at, seq, checks.outcome, false});
}

void Inspections::amend(base::Instant at, std::uint64_t seq, const entries::Checks& thing,
                        const std::vector<entries::Outcome>& outcomes) {
  std::vector<Check>& all = checks_[thing.thing_class][thing.thing];
  auto outcome = outcomes.begin();
  auto check = std::lower_bound(all.begin(), all.end(), Check{at, seq}, is_before);
  for (; check != all.end() && check->at == at && check->seq == seq; ++check) {
    check->struck = outcome == outcomes.end();
    if (!check->struck) check->outcome = *outcome++;
  }
  for (; outcome != outcomes.end(); ++outcome) place(all, {at, seq, *outcome, false});
}

const std::vector<Check>& Inspections::checks(std::string_view thing_class,
                                              std::string_view id) const {
  static const std::vector<Check> kNone;
  const auto by_id = checks_.find(thing_class);
  if (by_id == checks_.end()) return kNone;
  const auto found = by_id->second.find(id);
  return found == by_id->second.end() ? kNone : found->second;
}

bool Inspections::in_service(std::string_view thing_class, std::string_view id) const {
  const std::vector<Check>& all = checks(thing_class, id);
  const auto decided = std::find_if(all.rbegin(), all.rend(), [](const Check& check) {
    return !check.struck && check.outcome != entries::Outcome::kRecorded;
  });
  return decided == all.rend() || decided->outcome == entries::Outcome::kPassed;
}

void Inspections::write(ByteWriter& writer) const {
  writer.number(checks_.size());
  for (const auto& [thing_class, by_id] : checks_) {
    writer.text(thing_class);
    writer.number(by_id.size());
    for (const auto& [id, checks] : by_id) {
      writer.text(id);
      writer.number(checks.size());
      for (const Check& check : checks) {
        writer.signed_number(check.at.ms);
        writer.number(check.seq);
        writer.number(static_cast<std::uint64_t>(check.outcome) * 2 + (check.struck ? 1 : 0));
      }
    }
  }
}

namespace {

std::vector<Check> read_checks(ByteReader& reader) {
  constexpr auto kCodeMax = static_cast<std::uint64_t>(entries::Outcome::kWithdrawn) * 2 + 1;
  std::vector<Check> checks;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    Check check;
    check.at.ms = reader.signed_number();
    check.seq = reader.number();
    const std::uint64_t code = reader.number_up_to(kCodeMax);
    check.outcome = static_cast<entries::Outcome>(code / 2);
    check.struck = code % 2 == 1;
    if (!checks.empty() && is_before(check, checks.back())) reader.fail();
    checks.push_back(check);
  }
  return checks;
}

}  // namespace

Inspections Inspections::read(ByteReader& reader) {
  Inspections result;
  const std::size_t classes = reader.count();
  for (std::size_t i = 0; i < classes && !reader.failed(); ++i) {
    std::string thing_class = reader.text();
    ById by_id;
    const std::size_t ids = reader.count();
    for (std::size_t j = 0; j < ids && !reader.failed(); ++j) {
      std::string id = reader.text();
      if (!by_id.empty() && id <= by_id.rbegin()->first) reader.fail();
      by_id.insert_or_assign(std::move(id), read_checks(reader));
    }
    if (!result.checks_.empty() && thing_class <= result.checks_.rbegin()->first) reader.fail();
    result.checks_.insert_or_assign(std::move(thing_class), std::move(by_id));
  }
  return result;
}

}  // namespace benchwarden::tallies
