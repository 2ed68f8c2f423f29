#pragma once

#include <string_view>

#include "base/result.h"

namespace SQLite {
class Exception;
}

namespace benchwarden::sqlite {

/// The one place where a result code of SQLite becomes one of our error classes. `doing` says what
/// was tried, for the reader of the log.
base::Error to_error(std::string_view doing, const SQLite::Exception& exception);

}  // namespace benchwarden::sqlite
