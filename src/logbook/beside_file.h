#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace logbook {

// What SQLite keeps beside a database under the name of that one with -wal, -shm or -journal behind
// it. It takes away or writes over whatever has such a name, be it a whole logbook, so nothing gets
// one of them, and what has one and is not SQLite's is told before the library sees it.

// What the name of a logbook ends in, by which it is found in its folder.
inline constexpr std::string_view kLogbookSuffix = ".bolts";

// A logbook, or another SQLite database.
[[nodiscard]] bool is_database(const std::filesystem::path& file);

// Refusal where the name is that of a file which SQLite keeps beside a logbook, there or not yet:
// lines that are committed may still stand in it.
void refuse_part_of_logbook(const std::filesystem::path& file);

// The same for the name of a new file that is no logbook: Refusal too where it ends as a logbook's
// does, since every command in that folder would take it for one.
void refuse_name_of_logbook(const std::filesystem::path& file);

// The same as refuse_part_of_logbook for the name of a new logbook, also where none is there that
// it would belong to: one may come. Refusal too where something lies beside that SQLite would take
// as this logbook's own.
void check_new_name(const std::filesystem::path& file);

// Before a logbook that is there is opened. LogbookError (Unreachable) where it lies beside another
// file under such a name; LogbookError (Damaged) where something that is not SQLite's own (a link,
// a folder, a pipe, a database, a text) lies beside it under one. `file` is the real one, from the
// root of the disk; `named` is what messages call it.
void check_beside(const std::string& file, const std::string& named);

}  // namespace logbook
