#pragma once

#include "access/access.h"
#include "workshop/ports.h"

namespace benchwarden::http {

/// Tells the book what it was not told yet of changes to who may come in. What cannot be told now
/// is told with the next call.
base::Status<> tell_access_changes(access::Access& access, const workshop::Ports& ports);

/// Tells the book of every day before `today` since the last telling, one entry a day on which
/// anybody signed in or was refused. All that was refused before `today` is written down already.
base::Status<> tell_access_days(access::Access& access, const workshop::Ports& ports,
                                base::CivilDate today);

}  // namespace benchwarden::http
