#pragma once

#include "base/json.h"
#include "base/result.h"
#include "entries/refusal.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// In whose name a submission is recorded, and how sure that is. It is the person signed in unless
/// it says otherwise; in the name of anybody else, or without a PIN, it is taken from a paired
/// device only, and shows for ever as not verified.
///
/// Without a PIN nobody has more say than a technician: what only a manager records, and what wants
/// a competent person, waits for the PIN.
base::Result<Actor, entries::Refusals> signer_of(const Ports& ports, const Sender& sender,
                                                 const base::Json& submission);

}  // namespace benchwarden::workshop
