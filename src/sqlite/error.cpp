#include "sqlite/error.h"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <string>

namespace benchwarden::sqlite {
namespace {

base::ErrorCode class_of(int result_code) {
  constexpr int kPrimaryMask = 0xFF;  // the higher bits only say more of the same
  switch (result_code & kPrimaryMask) {
    case SQLITE_CONSTRAINT:
    case SQLITE_MISMATCH:
      return base::ErrorCode::kConflict;
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
    case SQLITE_FORMAT:
      return base::ErrorCode::kDamaged;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_FULL:
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
    case SQLITE_NOMEM:
    case SQLITE_PERM:
    case SQLITE_READONLY:
    case SQLITE_INTERRUPT:
    case SQLITE_PROTOCOL:
      return base::ErrorCode::kUnavailable;
    default:
      return base::ErrorCode::kInvalid;
  }
}

}  // namespace

base::Error to_error(std::string_view doing, const SQLite::Exception& exception) {
  std::string detail(doing);
  detail.append(": ").append(exception.what());
  detail.append(" (").append(std::to_string(exception.getExtendedErrorCode())).append(")");
  return {class_of(exception.getErrorCode()), std::move(detail)};
}

}  // namespace benchwarden::sqlite
