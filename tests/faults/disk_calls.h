#pragma once

#include <sqlite3.h>

namespace benchwarden::testing {

class FaultyDisk;

/// What SQLite calls, on the disk beneath: each call asks `disk` first and tells it afterwards.
sqlite3_vfs vfs_on(sqlite3_vfs& beneath, FaultyDisk& disk);

}  // namespace benchwarden::testing
