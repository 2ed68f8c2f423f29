#include "fuzz/busy_workshop.h"

#include "workshop/form_entries.h"

namespace benchwarden::fuzz {

workshop::TestWorkshop& busy_workshop() {
  static workshop::TestWorkshop workshop;
  static const bool filled = [] {
    workshop::FormEntries(workshop, 1).send(300);
    return true;
  }();
  static_cast<void>(filled);
  return workshop;
}

}  // namespace benchwarden::fuzz
