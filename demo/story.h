#pragma once

#include "base/civil_date.h"
#include "diary.h"

namespace benchwarden::demo {

/// Fourteen months of the workshop, up to and including `today`, none of it after `now`.
void tell_story(Diary& diary, base::CivilDate today, base::Instant now);

}  // namespace benchwarden::demo
