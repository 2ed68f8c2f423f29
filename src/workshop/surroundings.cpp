#include "workshop/surroundings.h"

#include <algorithm>
#include <set>
#include <utility>

#include "forms/shown.h"
#include "rules/holds.h"
#include "rules/suspicions.h"
#include "tallies/levels.h"
#include "tallies/rows.h"
#include "workshop/chain.h"
#include "workshop/judgement.h"
#include "workshop/month_close.h"

namespace benchwarden::workshop {

namespace {

/// Entries about one event or one stuck part: a handful; beyond this the later ones are not looked
/// at.
constexpr std::size_t kToldMax = 200;

std::uint64_t sealing_entry(const tallies::Timeline& timeline) {
  std::uint64_t seq = 0;
  for (const tallies::Event& event : timeline.events()) {
    if (event.acts && event.kind == tallies::EventKind::kSealed) seq = event.seq;
  }
  return seq;
}

/// The entry by which a thing went out of service; looking at it once more while it is out changes
/// nothing of that.
std::uint64_t withdrawing_entry(const tallies::RecordList& records) {
  std::uint64_t seq = 0;
  for (const tallies::Record& record : records) {
    if (record.struck || record.outcome == entries::Outcome::kRecorded) continue;
    if (record.outcome == entries::Outcome::kPassed) {
      seq = 0;
    } else if (seq == 0) {
      seq = record.seq;
    }
  }
  return seq;
}

/// When what an entry says came to be. A sender's clock may run ahead, and what is in the book
/// holds from then on.
std::optional<base::Instant> moment_of(const book::Book& book, std::uint64_t seq) {
  const auto entry = book.entry(seq);
  if (!entry) return std::nullopt;
  return std::min(entry->content.occurred_at.instant, entry->recorded_at);
}

/// "1 250 mL", "? g" when something went in that was not measured, "" when nothing is in it.
std::string content_of(const tallies::State& state, std::string_view container) {
  const tallies::Timeline& timeline = state.timeline(container);
  const bool by_volume = tallies::container_facts(state.under_care(), container).counted_by ==
                         tallies::CountedBy::kVolume;
  const std::int64_t amount = timeline.level();
  if (amount > 0) {
    // Microlitres are thousandths of a millilitre, milligrams of a gram.
    return forms::shown_amount(base::Decimal{amount},
                               *quantities::find_unit(by_volume ? "ml" : "g"));
  }
  if (!timeline.holds_unmeasured(base::Instant{INT64_MAX})) return "";
  return std::string("? ") + (by_volume ? "mL" : "g");
}

/// What stood on the log just before entry `seq`; all there is when it did nothing there. No entry
/// has the number 0.
std::int64_t level_before(const tallies::Timeline& timeline, std::uint64_t seq) {
  if (seq == 0) return timeline.level();
  std::int64_t level = 0;
  for (const tallies::Event& event : timeline.events()) {
    if (event.seq == seq) return level;
    level = event.level;
  }
  return level;
}

}  // namespace

std::optional<forms::Thing> BookSurroundings::thing(std::string_view thing_class,
                                                    std::string_view id) const {
  const auto state = ports_.live.view();
  const tallies::Thing* thing = state->thing(thing_class, id);
  if (thing == nullptr) return std::nullopt;
  forms::Thing answer{thing->retired, thing->in_service, thing->attributes, std::nullopt};
  if (thing->retired) {
    answer.out_of_use_since = moment_of(ports_.book, thing->changed_seq);
  } else if (!thing->in_service) {
    const auto& records = state->records(thing_class, id);
    answer.out_of_use_since = moment_of(ports_.book, withdrawing_entry(records));
  } else if (thing_class == "container" && state->timeline(id).sealed(base::Instant{INT64_MAX})) {
    answer.in_service = false;
    answer.out_of_use_since = moment_of(ports_.book, sealing_entry(state->timeline(id)));
  }
  return answer;
}

forms::Surroundings::Ties BookSurroundings::ties(std::string_view thing_class,
                                                 std::string_view id) const {
  const auto state = ports_.live.view();
  Ties ties;
  if (thing_class == "container") ties.content = content_of(*state, id);
  if (thing_class != "stream") return ties;
  for (const auto& [container, thing] : state->things("container")) {
    const bool belongs = tallies::word(thing.attributes, "stream") == id;
    if (belongs && !thing.retired) ties.containers.push_back(container);
  }
  return ties;
}

std::uint64_t BookSurroundings::number_of(const std::optional<base::Uuid>& entry) const {
  if (!entry) return 0;
  const auto found = ports_.book.entry(*entry);
  return found ? found->seq : 0;
}

std::vector<forms::Surroundings::ToldStage> BookSurroundings::stages(
    std::string_view collection, const std::optional<base::Uuid>& without) const {
  const std::uint64_t left_out = number_of(without);
  std::vector<ToldStage> stages;
  for (tallies::CollectionTold& told : ports_.live.view()->collection(collection)) {
    if (told.seq != left_out) stages.push_back({told.at, std::move(told.takes)});
  }
  return stages;
}

bool BookSurroundings::person_may(std::string_view competence) const {
  if (!actor_.verified) return false;  // whoever says to be that person may be anybody
  const auto state = ports_.live.view();
  const tallies::Thing* person = state->thing("person", actor_.person);
  if (person == nullptr || person->retired) return false;
  const auto* list = entries::find_field_as<entries::List>(person->attributes, "competences");
  if (list == nullptr) return false;
  const base::CivilDate today = zone_of(*state).date_of(now_);
  return std::any_of(list->rows.begin(), list->rows.end(), [&](const entries::Record& row) {
    const auto* which = entries::find_scalar_as<entries::Code>(row, "competence");
    const auto* until = entries::find_scalar_as<base::CivilDate>(row, "valid_until");
    return which != nullptr && which->slug == competence && (until == nullptr || *until >= today);
  });
}

bool BookSurroundings::knows_attachment(const std::string& digest) const {
  const auto parsed = base::digest_from_hex(digest);
  if (!parsed) return false;
  const auto known = ports_.book.knows_attachment(*parsed);
  // A disk that fails just now is told by the append, as what it is.
  return !known || *known;
}

std::vector<forms::Surroundings::Suspicion> BookSurroundings::suspected(
    std::string_view container) const {
  const auto state = ports_.live.still();
  const auto said = judge(ports_, *state, now_);
  std::vector<Suspicion> all;
  if (!said) return all;
  for (const findings::Finding& finding : said->findings) {
    const bool about = finding.subject.thing_class == "container" &&
                       finding.subject.id == container && rules::tells_suspicion(finding);
    if (!about) continue;
    const findings::Shown& what = finding.values.front().second;
    all.push_back(
        {what.value, std::string(ports_.definitions.catalog.label_of(what.field, what.value))});
  }
  return all;
}

bool BookSurroundings::stands(const std::string& finding) const {
  const auto state = ports_.live.still();
  const auto said = judge(ports_, *state, now_);
  // Rules that cannot be read just now answer on the careful side: what is named stays open.
  return said && std::any_of(said->findings.begin(), said->findings.end(),
                             [&](const auto& one) { return findings::key_of(one) == finding; });
}

forms::Surroundings::MonthStanding BookSurroundings::month(
    base::CivilMonth month, const std::optional<base::Uuid>& without) const {
  const auto state = ports_.live.view();
  return {zone_of(*state).start_of(base::next_month(month)),
          closing_in(*state, month, number_of(without)).has_value(),
          reports::month_digest(sums_of(*state, month)), begins_in(ports_, *state), state->size()};
}

std::optional<std::string> BookSurroundings::digest_at(base::CivilMonth month,
                                                       std::uint64_t book_size) const {
  if (book_size > ports_.live.view()->size()) return std::nullopt;
  const auto state = state_at(ports_, book_size);
  // A book that cannot be read just now answers on the careful side.
  return state ? std::optional(reports::month_digest(sums_of(*state, month))) : std::nullopt;
}

std::vector<forms::Surroundings::Hold> BookSurroundings::holds(
    const std::optional<base::Uuid>& without) const {
  const auto state = ports_.live.view();
  const rules::Scene scene(*state, now_, zone_of(*state));
  std::vector<Hold> standing;
  for (const tallies::Record* record : rules::holds_in_force(scene, number_of(without))) {
    const entries::Fields fields = record->fields();
    standing.push_back({std::string(tallies::word(fields, "authority")),
                        std::string(tallies::word(fields, "scope")), record->at});
  }
  return standing;
}

std::vector<forms::Surroundings::Told> BookSurroundings::told(
    std::string_view thing_class, std::string_view id,
    const std::optional<base::Uuid>& without) const {
  book::Selection about;
  about.subject = std::string(thing_class) + "/" + std::string(id);
  about.limit = kToldMax;
  std::vector<Told> all;
  const auto found = ports_.book.select(about);
  if (!found) return all;  // as if nothing were told: what needs a beginning is refused
  std::set<base::Uuid> seen;
  for (const entries::Entry& entry : *found) {
    const base::Uuid root = entry.content.corrects.value_or(entry.content.id);
    if (root == without || !seen.insert(root).second) continue;
    const auto target = this->target(root);
    if (!target || target->struck) continue;
    // A correction may have given the entry to another thing since.
    const auto subjects = forms::subjects_of(ports_.definitions.catalog, target->content);
    if (!std::binary_search(subjects.begin(), subjects.end(), *about.subject)) continue;
    all.push_back(
        {target->content.occurred_at.instant, target->content.kind, target->content.fields});
  }
  return all;
}

std::optional<forms::Surroundings::Claim> BookSurroundings::claim(std::uint64_t number) const {
  const auto entry = ports_.book.entry(number);
  if (!entry) return std::nullopt;
  const entries::Signature& signature = entry->signature;
  return Claim{signature.person == actor_.person, signature.person_verified,
               ports_.live.view()->claims().is_open(number)};
}

std::optional<forms::Surroundings::Log> BookSurroundings::log(
    std::string_view container, const std::optional<base::Uuid>& before) const {
  const std::uint64_t seq = number_of(before);
  const auto state = ports_.live.view();
  const tallies::Timeline& timeline = state->timeline(container);
  if (timeline.holds_unmeasured(base::Instant{INT64_MAX})) return std::nullopt;
  const auto facts = tallies::container_facts(state->under_care(), container);
  const std::int64_t level = level_before(timeline, seq);
  const auto in = [&](tallies::CountedBy by) {
    return tallies::exchanged(level, {facts.counted_by, by, facts.density});
  };
  Log log;
  log.by_volume = facts.counted_by == tallies::CountedBy::kVolume;
  if (log.by_volume || facts.density) {
    log.amount.volume = quantities::Microlitres(in(tallies::CountedBy::kVolume));
  }
  if (!log.by_volume || facts.density) {
    log.amount.mass = quantities::Milligrams(in(tallies::CountedBy::kMass));
  }
  return log;
}

std::optional<forms::Surroundings::Target> BookSurroundings::target(const base::Uuid& id) const {
  auto entry = ports_.book.entry(id);
  if (!entry) return std::nullopt;
  const std::uint64_t seq = entry->seq;
  auto chain = chain_of(ports_.book, ports_.definitions.catalog, *std::move(entry), before_seq_);
  if (!chain) return std::nullopt;
  return Target{std::move(chain->effective), chain->entry.recorded_at, chain->struck,
                is_relied_on(chain->entry, seq), chain->entry.signature.person == actor_.person};
}

bool BookSurroundings::is_relied_on(const entries::Entry& entry, std::uint64_t seq) const {
  for (const entries::Effect& effect :
       forms::effects_of(ports_.definitions.catalog, entry.content)) {
    const auto* change = std::get_if<entries::Changes>(&effect);
    if (change == nullptr || change->act != entries::RegisterAct::kAdded) continue;
    if (change->thing_class == "workshop") return true;
    book::Selection later;
    later.subject = change->thing_class + "/" + change->thing;
    later.after_seq = seq;
    later.limit = 1;
    const auto found = ports_.book.select(later);
    // A book that cannot be read just now answers on the careful side.
    if (!found || !found->empty()) return true;
  }
  return false;
}

}  // namespace benchwarden::workshop
