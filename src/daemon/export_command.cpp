#include <iostream>

#include "daemon/open_workshop.h"
#include "workshop/export_book.h"

namespace benchwarden::daemon {

Exit run_export(const Options& options, const std::filesystem::path& to) {
  const auto there = must_hold(options.config.data_folder, "book.db");
  if (!there) return there.error();
  const auto outside = must_lie_outside(options.config.data_folder, to, "--to");
  if (!outside) return fail(outside.error());
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  const auto exported =
      workshop::export_book(options.config.data_folder, to, (*loaded)->definitions);
  if (!exported) return fail(exported.error());
  std::cout << exported->entries << " entries and " << exported->attachments
            << " attachments written to " << to.string() << ", root " << exported->root_hex << "\n"
            << "names and PINs of persons are not in it\n";
  return Exit::kDone;
}

}  // namespace benchwarden::daemon
