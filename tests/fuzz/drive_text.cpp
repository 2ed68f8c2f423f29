#include "fuzz/drive_text.h"

#include "base/text.h"
#include "rules/rule_book.h"
#include "rules/rule_pack.h"
#include "workshop/record.h"
#include "workshop/register_import.h"

namespace benchwarden::fuzz {

std::string drive_pack(const rules::Scene& scene, std::string_view text) {
  const auto pack = rules::read_pack(text, "fuzz.toml");
  if (!pack) {
    if (pack.error().empty()) return "refused without a fault";
    for (const base::FileFault& fault : pack.error()) {
      if (fault.reason.empty()) return "a fault without a reason";
      if (fault.line < 0) return "a fault before the first line";
    }
    return "";
  }
  const findings::Judgement said = rules::judge(rules::RuleBook::stacked({&*pack}), scene);
  for (const findings::Finding& one : said.findings) {
    if (one.authority.rule.empty() || one.says.empty()) return "a finding that says nothing";
  }
  return "";
}

std::string drive_register(const workshop::Ports& ports, std::string_view text) {
  const std::uint64_t size = ports.book.head().size;
  const workshop::Actor manager{"p1", "manager", true};
  const auto outcome =
      workshop::import_register(ports, manager, text, workshop::ImportMode::kDryRun);
  if (ports.book.head().size != size) return "a dry run recorded something";
  if (const auto* error = std::get_if<base::Error>(&outcome)) return error->detail;
  if (const auto* faults = std::get_if<workshop::ImportFaults>(&outcome)) {
    if (faults->empty()) return "refused without a fault";
    for (const workshop::ImportFault& fault : *faults) {
      if (fault.sentence.empty() || fault.code.empty()) return "a fault without a sentence";
    }
  }
  return "";
}

}  // namespace benchwarden::fuzz
