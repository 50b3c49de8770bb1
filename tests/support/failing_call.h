#pragma once

#include <cstddef>
#include <map>
#include <string>

// A call of the system that fails in the built program, as SQLite's do on the watched disk
// (tests/logbook/watched_disk.h): of this kind the one with this number, from 0 on, among those for
// files in `folder`.
struct FailingCall {
  std::string call;  // open, write, ftruncate, fsync or rename
  std::string folder;
  std::size_t number = 0;
  int code = 0;  // errno
  // So does each after it, and of what it was to write half arrives: as a disk gets full.
  bool lasting = false;

  // For run_program_in. What is called is told in this file, which has to lie elsewhere.
  [[nodiscard]] std::map<std::string, std::string> environment(const std::string& told) const;
};

// How many calls of the kind there were, and whether one failed.
struct CallsTold {
  std::size_t calls = 0;
  bool failed = false;
};
[[nodiscard]] CallsTold calls_told(const std::string& told);
