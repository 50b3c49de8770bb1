#include "logbook/draft_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <system_error>
#include <vector>

#include "logbook/entry_id.h"
#include "logbook/logbook_error.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kPrefix = ".starting-";

// The draft itself goes last: where the program is killed meanwhile, it still names the rest.
void remove_with_tails(const fs::path& draft) {
  std::error_code ignored;
  for (const char* tail : {"-wal", "-shm", "-journal", ""})
    fs::remove(draft.string() + tail, ignored);
}

// ".starting-" and the 36 characters of an id, and nothing behind.
bool is_draft_name(const std::string& name) {
  constexpr std::size_t kIdLength = 36;
  return name.starts_with(kPrefix) && name.size() == kPrefix.size() + kIdLength &&
         name.find_first_not_of("0123456789abcdef-", kPrefix.size()) == std::string::npos;
}

// What a new name has to be followed by, so that a power cut does not undo it.
void sync_folder(const fs::path& folder) {
  const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return;
  ::fsync(handle);
  ::close(handle);
}

// A draft whose lock can be had is nobody's any more.
void remove_stale(const fs::path& folder) {
  std::error_code problem;
  std::vector<fs::path> drafts;
  for (fs::directory_iterator at(folder, problem), end; !problem && at != end;
       at.increment(problem)) {
    if (is_draft_name(at->path().filename().string())) drafts.push_back(at->path());
  }
  for (const auto& draft : drafts) {
    const int handle = ::open(draft.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
    if (handle < 0) continue;
    if (::flock(handle, LOCK_EX | LOCK_NB) == 0) remove_with_tails(draft);
    ::close(handle);
  }
}

}  // namespace

DraftFile::DraftFile(const fs::path& folder, unsigned mode)
    : path_(folder / fmt::format("{}{}", kPrefix, random_id())) {
  remove_stale(folder);
  lock_ = ::open(path_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, mode);
  if (lock_ < 0) {
    throw LogbookError(
        LogbookError::Kind::Unreachable,
        fmt::format("nothing can be written in the folder {} ({}); check its permissions and the "
                    "room on the disk, or choose another",
                    folder.string(), std::strerror(errno)));
  }
  // Where a folder knows no locks, nobody can take this draft for a stale one either.
  (void)::flock(lock_, LOCK_EX | LOCK_NB);
}

DraftFile::~DraftFile() {
  remove_with_tails(path_);
  ::close(lock_);
}

void DraftFile::set_mode(unsigned mode) const { (void)::fchmod(lock_, mode); }

bool DraftFile::publish_as(const fs::path& name) const {
  // A link, unlike a rename, never replaces a file that appeared meanwhile.
  if (::link(path_.c_str(), name.c_str()) != 0) {
    if (errno == EEXIST) return false;
    // Some memory sticks know no links; there a rename that replaces nothing does.
    if (::renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, name.c_str(), RENAME_NOREPLACE) != 0) {
      if (errno == EEXIST) return false;
      throw LogbookError(
          LogbookError::Kind::Unreachable,
          fmt::format("{} could not be made: {}", name.string(), std::strerror(errno)));
    }
  }
  sync_folder(name.parent_path());
  return true;
}

}  // namespace logbook
