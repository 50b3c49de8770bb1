#include "logbook/logless_vfs.h"

#include <sqlite3.h>

namespace logbook {
namespace {

sqlite3_vfs* ordinary() { return sqlite3_vfs_find("unix"); }

int open_what_is_there(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags,
                       int* out_flags) {
  if ((flags & SQLITE_OPEN_WAL) != 0) flags &= ~SQLITE_OPEN_CREATE;
  return ordinary()->xOpen(ordinary(), name, file, flags, out_flags);
}

sqlite3_vfs* registered() {
  static sqlite3_vfs vfs = [] {
    sqlite3_vfs made = *ordinary();
    made.pNext = nullptr;
    made.zName = "boltwitness-logless";
    made.xOpen = open_what_is_there;
    return made;
  }();
  sqlite3_vfs_register(&vfs, 0);
  return &vfs;
}

}  // namespace

const char* logless_vfs() {
  static const sqlite3_vfs* vfs = registered();
  return vfs->zName;
}

}  // namespace logbook
