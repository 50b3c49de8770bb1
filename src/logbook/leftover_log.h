#pragma once

#include <string>
#include <string_view>

namespace logbook {

// What a journal begins with that SQLite may play back (its file format, section 3).
inline constexpr std::string_view kJournalMark = "\xd9\xd5\x05\xf9\x20\xa1\x63\xd7";

// Whether a journal lies beside this file that SQLite would play back, or another program is just
// writing.
[[nodiscard]] bool has_journal(const std::string& file);

// Before a logbook is opened beside which a killed program left a write-ahead log (`-wal`), or the
// journal of a write that was not finished (`-journal`, on a disk that knows no shared memory):
// SQLite plays either into the file at once, whatever file lies there by now. So both are looked at
// first, the file alone and with what was left, and nothing is changed. LogbookError (Damaged)
// where the file is sound by itself and that would take lines from it, mix it with another or leave
// it unsound; the lines of one command that was not done are what a journal takes back. One that
// another program is at work with is its own. `file` is the real one, from the root of the disk;
// `named` is what messages call it.
void check_leftovers(const std::string& file, const std::string& named);

}  // namespace logbook
