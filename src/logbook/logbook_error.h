#pragma once

#include <string>

#include "failure/failure.h"

namespace SQLite {
class Exception;
}

namespace logbook {

// The logbook could not be opened, read or written. Whatever was in it before still is; nothing
// was half written, and but for InDoubt nothing at all.
class LogbookError : public failure::Failure {
 public:
  enum class Kind {
    NotFound,     // no such file
    Exists,       // a file stands where a new logbook should be started
    NotALogbook,  // some other file
    NewerSchema,  // written by a later version of the program
    Busy,         // another program holds it
    Full,         // no room left on the disk
    Unreachable,  // no permission, or the disk failed
    Damaged,      // the file contradicts itself
    InDoubt,      // the disk did not make sure of what was written: it may be kept or not
  };

  LogbookError(Kind kind, const std::string& message)
      : Failure(kind == Kind::Exists ? failure::kNotInOrder : failure::kLogbookTrouble, message),
        kind_(kind) {}
  [[nodiscard]] Kind kind() const { return kind_; }

 private:
  Kind kind_;
};

// What an error of the SQLite library means to a person, with the file it is about.
[[nodiscard]] LogbookError translated(const SQLite::Exception& error, const std::string& path);

// "; no file may grow beyond 64 KiB here (ulimit -f)" where such a limit is set, which fails like a
// full disk; else nothing.
[[nodiscard]] std::string limit_on_files();

// Why the system took no more of a file, by its errno, with that limit where it is what stops it.
// What every message about a file that was not written tells.
[[nodiscard]] std::string why_not_written(int reason);

// True where the file could not be read or written, as when the disk failed or another program
// holds it; that says nothing about what stands in it.
[[nodiscard]] bool is_trouble_with_the_disk(const SQLite::Exception& error);

// Throws the same for a line that was not written because of it; InputError where the schema
// refuses what the line says.
[[noreturn]] void throw_not_written(const SQLite::Exception& error, const std::string& path);

}  // namespace logbook
