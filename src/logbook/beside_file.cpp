#include "logbook/beside_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string_view>
#include <system_error>

#include "failure/failure.h"
#include "logbook/leftover_log.h"
#include "logbook/logbook_error.h"
#include "logbook/plain_file.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kOfDatabase = "SQLite format 3";
constexpr std::array<std::string_view, 3> kTails = {"-wal", "-shm", "-journal"};

// The name of the file that one of this name would belong to; nothing for any other name.
std::optional<std::string> owner_of(const std::string& name) {
  for (const auto tail : kTails) {
    if (name.ends_with(tail)) return name.substr(0, name.size() - tail.size());
  }
  return std::nullopt;
}

// Each is begun with its mark, or with zeros where it is to be nothing yet; a power cut may have
// left less of it.
bool begins_as(std::string_view begin, std::string_view mark) {
  return begin.empty() || begin.front() == '\0' || mark.starts_with(begin.substr(0, mark.size()));
}

// By a process of its own: to close such a file here would end the locks that another connection of
// this process has on it.
bool is_database_by_other_process(const std::string& file) {
  const auto child = ::fork();
  if (child == 0) {
    std::array<char, kOfDatabase.size()> begin{};
    const int handle = ::open(file.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    const bool is_whole = ::read(handle, begin.data(), begin.size()) == ssize_t{begin.size()};
    ::_exit(is_whole && std::equal(begin.begin(), begin.end(), kOfDatabase.begin()) ? 1 : 0);
  }
  int status = 0;
  while (child > 0 && ::waitpid(child, &status, 0) < 0 && errno == EINTR) continue;
  return child > 0 && WIFEXITED(status) && WEXITSTATUS(status) == 1;
}

// It grows by pages; while no log is longer than 16 MiB it has one part, and no logbook is as short
// as that.
bool is_shared_memory(const std::string& file) {
  constexpr std::uintmax_t kPage = 4096;
  constexpr std::uintmax_t kPart = 8 * kPage;
  constexpr std::uintmax_t kEmptied = 3;
  std::error_code gone;
  const auto size = fs::file_size(file, gone);
  if (gone || size == kEmptied) return true;
  return size % kPage == 0 && (size <= kPart || !is_database_by_other_process(file));
}

bool is_of_sqlite(const std::string& file, std::string_view tail) {
  if (tail == "-shm") return is_shared_memory(file);
  constexpr std::string_view kWalMark = "\x37\x7f\x06";
  return begins_as(begin_of_plain_file(file, kJournalMark.size()),
                   tail == "-wal" ? kWalMark : kJournalMark);
}

// What has one of the names beside this file and is not SQLite's: its name, and what it is.
struct Stranger {
  std::string_view tail;
  std::string_view what;
};

std::optional<Stranger> stranger_beside(const std::string& file) {
  for (const auto tail : kTails) {
    const auto name = file + std::string(tail);
    std::error_code problem;
    const auto status = fs::symlink_status(name, problem);
    if (!fs::exists(status)) continue;
    if (!fs::is_regular_file(status)) {
      return Stranger{tail, fs::is_symlink(status)     ? "a link"
                            : fs::is_directory(status) ? "a folder"
                                                       : "no file"};
    }
    if (!is_of_sqlite(name, tail)) return Stranger{tail, "not what SQLite keeps under that name"};
  }
  return std::nullopt;
}

}  // namespace

bool is_database(const fs::path& file) {
  return begin_of_plain_file(file, kOfDatabase.size()) == kOfDatabase;
}

void refuse_part_of_logbook(const fs::path& file) {
  const auto name = file.string();
  const auto owner = owner_of(name);
  if (!owner || !is_database(*owner)) return;
  throw failure::Refusal(fmt::format(
      "{} belongs to {}, a logbook or another database; choose another name", name, *owner));
}

void refuse_name_of_logbook(const fs::path& file) {
  refuse_part_of_logbook(file);
  if (file.extension() != kLogbookSuffix) return;
  throw failure::Refusal(
      fmt::format("{} has the name of a logbook, and commands in its folder would take it for one; "
                  "choose a name that does not end in {}",
                  file.string(), kLogbookSuffix));
}

void check_new_name(const fs::path& file) {
  refuse_part_of_logbook(file);
  const auto name = file.string();
  if (const auto owner = owner_of(name)) {
    throw failure::Refusal(
        fmt::format("what is called {} is taken away as soon as there is a logbook {}; choose "
                    "another name, such as {}{}",
                    name, *owner, fs::path(*owner).stem().string(), kLogbookSuffix));
  }
  const auto left = [&](std::string_view tail) {
    std::error_code missing;
    const auto size = fs::file_size(name + std::string(tail), missing);
    return !missing && size > 0;
  };
  const auto stranger = stranger_beside(name);
  const auto tail = stranger           ? std::optional(stranger->tail)
                    : left("-wal")     ? std::optional<std::string_view>("-wal")
                    : left("-journal") ? std::optional<std::string_view>("-journal")
                                       : std::nullopt;
  if (!tail) return;
  throw failure::Refusal(
      fmt::format("{0}{1} lies there already and would be taken as a part of {0}; move it away, or "
                  "choose another name",
                  name, *tail));
}

void check_beside(const std::string& file, const std::string& named) {
  std::error_code problem;
  if (const auto owner = owner_of(file); owner && fs::exists(*owner, problem)) {
    throw LogbookError(
        LogbookError::Kind::Unreachable,
        fmt::format("{} has the name of what SQLite keeps beside {}, and takes away; name that "
                    "one, or give this one another name first",
                    named, *owner));
  }
  if (const auto stranger = stranger_beside(file)) {
    throw LogbookError(
        LogbookError::Kind::Damaged,
        fmt::format("beside {0} lies {0}{1}, which is {2} and would be lost or written to; nothing "
                    "was changed; move it into another folder, or give it another name, and try "
                    "again",
                    named, stranger->tail, stranger->what));
  }
}

}  // namespace logbook
