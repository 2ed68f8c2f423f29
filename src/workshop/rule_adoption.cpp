#include "workshop/rule_adoption.h"

#include <algorithm>
#include <utility>

#include "base/sha256.h"
#include "tallies/facts.h"
#include "workshop/check_pack.h"
#include "workshop/daemon_draft.h"
#include "workshop/judgement.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kRulesAdopted = "rules-adopted";
constexpr std::string_view kBase = "base";
constexpr std::string_view kLocal = "local";

/// The newest of a layer; of one pack where its id is given. By number: a clock may be set back.
std::optional<AdoptedPack> newest(const tallies::State& state, std::string_view layer,
                                  std::string_view id) {
  std::optional<AdoptedPack> found;
  for (const tallies::Record& record : state.records("", kRulesAdopted)) {
    if (found && record.seq < found->seq) continue;
    const entries::Fields fields = record.fields();
    const std::string_view pack = tallies::word(fields, "pack");
    if (tallies::word(fields, "layer") != layer || (!id.empty() && pack != id)) continue;
    found = AdoptedPack{std::string(pack), std::string(tallies::word(fields, "edition")),
                        std::string(tallies::word(fields, "digest")), record.seq};
  }
  return found;
}

book::Draft adoption(const Ports& ports, std::string_view layer, const AdoptedPack& adopted) {
  book::Draft draft = daemon_draft(kRulesAdopted, ports.definitions.catalog, ports.clock.now());
  draft.content.fields = {{"digest", entries::Text{adopted.digest}},
                          {"edition", entries::Text{adopted.edition}},
                          {"layer", entries::Code{std::string(layer)}},
                          {"pack", entries::Text{adopted.pack}}};
  return draft;
}

/// Keeps the text and records that it judges from now on.
base::Result<book::Receipt> adopt(const Ports& ports, const rules::RulePack& pack,
                                  book::Draft draft) {
  const auto kept = ports.book.keep_attachment(pack.text);
  if (!kept) return kept.error();
  draft.content.attachments = {pack.digest};
  return ports.book.append(draft);
}

AdoptedPack named(const rules::RulePack& pack) { return {pack.id, pack.edition, pack.digest, 0}; }

base::Result<book::Receipt> withdraw(const Ports& ports, const Actor& actor) {
  const auto standing = local_pack(*ports.live.view());
  if (!standing) return base::Error{base::ErrorCode::kConflict, "no local pack is in force"};
  book::Draft draft = adoption(
      ports, kLocal, {standing->pack, "withdrawn", base::to_hex(base::sha256(std::string())), 0});
  draft.signature = {actor.person, actor.verified, actor.device, std::nullopt};
  return ports.book.append(draft);
}

}  // namespace

std::optional<AdoptedPack> adopted_pack(const tallies::State& state, std::string_view id) {
  return id.empty() ? std::nullopt : newest(state, kBase, id);
}

std::uint64_t newest_adoption(const tallies::State& state) {
  std::uint64_t newest = 0;
  for (const tallies::Record& record : state.records("", kRulesAdopted)) {
    newest = std::max<std::uint64_t>(newest, record.seq);
  }
  return newest;
}

std::optional<AdoptedPack> local_pack(const tallies::State& state) {
  static const std::string kNothing = base::to_hex(base::sha256(std::string()));
  auto found = newest(state, kLocal, "");
  if (found && found->digest == kNothing) return std::nullopt;
  return found;
}

base::Status<> adopt_packs(const Ports& ports) {
  std::vector<const rules::RulePack*> missing;
  {
    const auto state = ports.live.view();
    const tallies::Thing* site = state->thing("workshop", "site");
    if (site == nullptr) return base::Done{};
    const std::string_view own = tallies::word(site->attributes, "rule_pack");
    for (const std::string_view id :
         {std::string_view("workshop"), std::string_view("standards"), own}) {
      const rules::RulePack* pack = ports.packs.built_in(id);
      const auto adopted = adopted_pack(*state, id);
      if (pack != nullptr && (!adopted || adopted->digest != pack->digest)) missing.push_back(pack);
    }
  }
  for (const rules::RulePack* pack : missing) {
    const auto done = adopt(ports, *pack, adoption(ports, kBase, named(*pack)));
    if (!done) return done.error();
  }
  const auto readable = rules_in_force(ports, *ports.live.view());
  if (!readable) return readable.error();
  return base::Done{};
}

void follow_register(const Ports& ports) {
  {
    const auto state = ports.live.view();
    const tallies::Thing* site = state->thing("workshop", "site");
    if (site == nullptr) return;
    if (ports.packs.built_in(tallies::word(site->attributes, "rule_pack")) == nullptr) return;
  }
  static_cast<void>(adopt_packs(ports));
}

base::Result<rules::RulePack, base::FileFaults> read_local_pack(const Definitions& definitions,
                                                                const std::string& text,
                                                                const std::string& file) {
  auto pack = rules::read_pack(text, file);
  if (!pack) return pack;
  base::FileFaults faults;
  const auto& packs = definitions.packs;
  const bool taken = std::any_of(packs.begin(), packs.end(), [&](const rules::RulePack& built_in) {
    return built_in.id == pack->id;
  });
  if (taken) {
    faults.push_back({file, 0, "pack '" + pack->id + "' is built in; accepted: another name"});
  }
  check_pack(*pack, definitions.catalog, packs, faults);
  if (!faults.empty()) return faults;
  return pack;
}

LocalPackOutcome put_local_pack(const Ports& ports, const Actor& actor, const std::string& text) {
  const auto turn = ports.admission.alone();
  if (text.empty()) {
    auto withdrawn = withdraw(ports, actor);
    if (!withdrawn) return withdrawn.error();
    return *withdrawn;
  }
  const auto pack = read_local_pack(ports.definitions, text, "local pack");
  if (!pack) return pack.error();
  book::Draft draft = adoption(ports, kLocal, named(*pack));
  draft.signature = {actor.person, actor.verified, actor.device, std::nullopt};
  auto receipt = adopt(ports, *pack, std::move(draft));
  if (!receipt) return receipt.error();
  return *receipt;
}

}  // namespace benchwarden::workshop
