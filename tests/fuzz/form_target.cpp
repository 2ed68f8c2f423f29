// A submission of any kind. What is refused is refused in sentences that say where, and records
// nothing; what is accepted is read back, is the same when it is sent again, and leaves a book in
// which verify and rebuild find nothing.
#include <memory>

#include "base/text.h"
#include "entries/leaf.h"
#include "fuzz/targets.h"
#include "workshop/form_entries.h"
#include "workshop/upkeep.h"

namespace benchwarden::fuzz {
namespace {

using workshop::Told;

constexpr std::size_t kSentenceBytesMax = 2'000;

/// The workshop that takes what comes in. After so many entries it is checked and another begun, so
/// that no run depends on all runs before it.
class Desk {
 public:
  Desk() { begin(); }

  const workshop::TestWorkshop& workshop() { return *workshop_; }
  void note(const Told& told) { accepted_.push_back(base::write_json(told.json)); }
  [[nodiscard]] bool is_full() const { return accepted_.size() >= kAcceptedMax; }
  void begin() {
    workshop_.reset();
    accepted_.clear();
    workshop::give_ids_anew();
    workshop_ = std::make_unique<workshop::TestWorkshop>();
    workshop::FormEntries(*workshop_, 1).send(60);
  }
  /// What verify and rebuild find, with all that was accepted.
  [[nodiscard]] std::string fault() const {
    const auto verified = workshop::verify_book(workshop_->folder(), workshop::real_definitions());
    std::string found = verified ? base::join(verified->faults, "\n") : verified.error().detail;
    const auto rebuilt = workshop::rebuild(workshop_->ports());
    if (!rebuilt) found += rebuilt.error().detail;
    if (rebuilt && !rebuilt->same) found += "the live state is not what the book folds to";
    return found.empty() ? "" : found + "\nafter\n" + base::join(accepted_, "\n");
  }

 private:
  static constexpr std::size_t kAcceptedMax = 40;
  std::unique_ptr<workshop::TestWorkshop> workshop_;
  std::vector<std::string> accepted_;
};

Desk& desk() {
  static Desk desk;
  return desk;
}

/// Under an id of its own where it has one, or hardly anything would be recorded a second time.
Told told_of(const base::Json& json) {
  const base::Json* id = json.find("id");
  const bool has_id =
      id != nullptr && id->string() != nullptr && base::parse_uuid(*id->string()).ok();
  const Told own = workshop::tell("briefing", "{}");
  return has_id ? workshop::under_id({"", json}, own.id) : Told{"", json};
}

bool is_pointer(const std::string& text) {
  if (!text.empty() && text.front() != '/') return false;
  for (std::size_t at = text.find('~'); at != std::string::npos; at = text.find('~', at + 1)) {
    if (at + 1 == text.size() || (text[at + 1] != '0' && text[at + 1] != '1')) return false;
  }
  return true;
}

std::string fault_of_refusal(const workshop::Faults& faults) {
  if (faults.empty()) return "refused without a reason";
  for (const workshop::Fault& fault : faults) {
    if (!is_pointer(fault.pointer)) return "no pointer: " + fault.pointer;
    if (fault.code.empty() || fault.sentence.empty()) return "no words for " + fault.pointer;
    if (!base::is_valid_utf8(fault.sentence)) return "no text for " + fault.pointer;
    if (fault.sentence.size() > kSentenceBytesMax) return "too long: " + fault.sentence;
    if (fault.sentence.find("{accepted}") != std::string::npos) return fault.sentence;
  }
  return "";
}

std::string fault_of_recorded(const workshop::Recorded& recorded, const Told& told) {
  const workshop::Ports& ports = desk().workshop().ports();
  const auto entry = ports.book.entry(recorded.id);
  if (!entry) return "not in the book: " + entry.error().detail;
  const auto read = entries::read_leaf(entries::write_leaf(*entry), ports.definitions.catalog);
  if (!read || !(read->content == entry->content)) return "its leaf is read otherwise";
  const auto outcome = desk().workshop().send(told);
  const auto* again = std::get_if<workshop::Recorded>(&outcome);
  const bool same = again != nullptr && again->receipt.already_there &&
                    again->receipt.seq == recorded.receipt.seq;
  return same ? "" : "sent again it is another";
}

}  // namespace

std::string form_fault(std::string_view input) {
  const auto json = base::parse_json(input);
  if (!json) return "";
  if (desk().is_full()) {
    const std::string fault = desk().fault();
    if (!fault.empty()) return fault;
    desk().begin();
  }
  const Told told = told_of(*json);
  const std::uint64_t size = desk().workshop().size();
  const auto outcome = desk().workshop().send(told);
  const auto* recorded = std::get_if<workshop::Recorded>(&outcome);
  const std::uint64_t expected = recorded != nullptr && !recorded->receipt.already_there ? 1 : 0;
  if (desk().workshop().size() != size + expected) return "the book has another size";
  if (recorded != nullptr) {
    desk().note(told);
    return fault_of_recorded(*recorded, told);
  }
  if (const auto* faults = std::get_if<workshop::Faults>(&outcome))
    return fault_of_refusal(*faults);
  const auto* error = std::get_if<base::Error>(&outcome);
  return error != nullptr && error->code != base::ErrorCode::kConflict ? error->detail : "";
}

}  // namespace benchwarden::fuzz
