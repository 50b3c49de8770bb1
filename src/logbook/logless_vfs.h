#pragma once

namespace logbook {

// The name of SQLite's ordinary way to files (VFS) with one difference: no write-ahead log is made
// where there is none; opening one says that it cannot be opened then.
[[nodiscard]] const char* logless_vfs();

}  // namespace logbook
