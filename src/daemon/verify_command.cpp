#include <algorithm>
#include <iostream>
#include <iterator>

#include "base/base64.h"
#include "base/sha256.h"
#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "daemon/text_file.h"
#include "workshop/upkeep.h"
#include "workshop/verify_claims.h"
#include "workshop/verify_export.h"

namespace benchwarden::daemon {
namespace {

void print_lines(const std::string& before, const std::vector<std::string>& lines) {
  for (const std::string& line : lines) std::cout << before << line << "\n";
}

Exit print_verified(const base::Result<workshop::Verified>& verified, const std::string& what) {
  if (!verified) return fail(verified.error());
  print_lines("", verified->faults);
  print_lines("", verified->notes);
  std::cout << verified->head.size << " entries, root " << base::to_hex(verified->head.root)
            << "\n";
  if (!verified->faults.empty()) {
    std::cout << what << " does NOT hold what was recorded\n";
    return Exit::kFaultsFound;
  }
  std::cout << "every stored byte matches its hashes; this shows change, not false input\n";
  return Exit::kDone;
}

Exit print_shown(const base::Result<workshop::Shown>& outcome) {
  if (!outcome) return fail(outcome.error());
  print_lines("", outcome->faults);
  if (!outcome->faults.empty()) {
    std::cout << "it does NOT hold\n";
    return Exit::kFaultsFound;
  }
  print_lines("shown: ", outcome->shown);
  print_lines("not shown: ", outcome->not_shown);
  return Exit::kDone;
}

Exit verify_whole(const Options& options, BookEnd end, const workshop::Definitions& definitions) {
  if (end == BookEnd::kAccept) {
    const auto accepted =
        workshop::accept_book_end(options.config.data_folder, definitions, SystemClock());
    if (!accepted) return fail(accepted.error());
  }
  return print_verified(workshop::verify_book(options.config.data_folder, definitions),
                        "the data folder");
}

constexpr std::size_t kReportBytesMax = 16'777'216;  // more is never issued

base::Result<std::string> read_named_file(const std::filesystem::path& file,
                                          std::size_t bytes_max = kTextFileBytesMax) {
  auto bytes = read_text_file(file, bytes_max);
  if (bytes) return bytes;
  return base::Error{bytes.error().code, file.string() + " " + bytes.error().detail};
}

/// 64 hexadecimal digits, or 44 signs of base64 as a checkpoint has them.
base::Result<base::Sha256Digest> read_root(const std::string& text) {
  const auto bytes = base::from_base64(text);
  base::Sha256Digest root{};
  if (!bytes || bytes->size() != root.size()) return base::digest_from_hex(text);
  std::copy(bytes->begin(), bytes->end(), root.begin());
  return root;
}

base::Result<std::optional<seal::VerifierKey>> read_key(const std::string& text) {
  if (text.empty()) return std::optional<seal::VerifierKey>();
  const auto key = seal::parse_verifier_key(text);
  if (!key) return key.error();
  return std::optional(*key);
}

base::Result<workshop::ClaimedHead> read_head(const VerifyOptions& wanted) {
  const auto key = read_key(wanted.key);
  if (!key) return key.error();
  workshop::ClaimedHead head;
  head.key = *key;
  if (!wanted.checkpoint.empty()) {
    auto note = read_named_file(wanted.checkpoint);
    if (!note) return note.error();
    head.note = *std::move(note);
    return head;
  }
  const auto root = read_root(wanted.root);
  if (!root) return root.error();
  head.size = *wanted.size;
  head.root = *root;
  return head;
}

Exit verify_a_head(const Options& options, const VerifyOptions& wanted,
                   const workshop::Definitions& definitions) {
  const auto head = read_head(wanted);
  if (!head) return fail(head.error());
  return print_shown(workshop::verify_head(options.config.data_folder, definitions, *head));
}

Exit verify_a_report(const Options& options, const VerifyOptions& wanted,
                     const workshop::Definitions& definitions) {
  const auto bytes = read_named_file(wanted.report, kReportBytesMax);
  if (!bytes) return fail(bytes.error());
  return print_shown(workshop::verify_report_file(options.config.data_folder, definitions, *bytes));
}

Exit verify_a_proof(const VerifyOptions& wanted) {
  const auto key = read_key(wanted.key);
  if (!key) return fail(key.error());
  const auto bytes = read_named_file(wanted.proof);
  if (!bytes) return fail(bytes.error());
  return print_shown(workshop::verify_entry_proof(*bytes, *key));
}

}  // namespace

Exit verify(const Options& options, const VerifyOptions& wanted) {
  if (!wanted.proof.empty()) return verify_a_proof(wanted);
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  const workshop::Definitions& definitions = (*loaded)->definitions;
  if (!wanted.export_folder.empty()) {
    return print_verified(workshop::verify_export(wanted.export_folder, definitions), "the export");
  }
  const auto there = must_hold(options.config.data_folder, "book.db");
  if (!there) return there.error();
  if (!wanted.checkpoint.empty() || wanted.size) return verify_a_head(options, wanted, definitions);
  if (!wanted.report.empty()) return verify_a_report(options, wanted, definitions);
  return verify_whole(options, wanted.end, definitions);
}

}  // namespace benchwarden::daemon
