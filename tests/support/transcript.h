#pragma once

#include <filesystem>
#include <string>

// A transcript is a text file that holds commands and what each of them must answer:
//
//   # a remark
//   @ columns 60                  width of the output from here on (80 at first)
//   @ now 2025-06-02T08:00:00Z    the time of day from here on (2025-06-01 at 8 at first)
//   @ tap LM 2025-06-01T07:50:00Z J06 1 A1   LM's phone sends what was tapped then: this one is out
//   @ run gb1/1-setup.sh          runs a file of samples/ silently; each command must succeed
//   @ picture mark.jpg            lays one of tests/pictures there
//   % boltwitness out J06/1       runs one command silently; it must succeed
//   $ boltwitness audit           runs one command; below it stands what it must answer
//   | a line of stdout
//   ! a line of stderr
//   = 1                           the exit code
//
// Commands run in a Trial, in a folder of their own which is the current folder meanwhile, with
// gb1.bolts as BOLTWITNESS_LOG. Entry ids and that folder differ from run to run; they are written
// as <id> and <folder>.

// The transcript as it comes out today: the given one with every answer replaced.
[[nodiscard]] std::string replayed(const std::string& transcript,
                                   const std::filesystem::path& samples);

// The first line in which the two texts differ, both versions; empty where they are the same.
[[nodiscard]] std::string first_difference(const std::string& expected, const std::string& actual);
