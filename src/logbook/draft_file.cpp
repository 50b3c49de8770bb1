#include "logbook/draft_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
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

DraftFile::DraftFile(const fs::path& folder)
    : path_(folder / fmt::format("{}{}", kPrefix, random_id())) {
  remove_stale(folder);
  constexpr mode_t kMode = 0644;  // as SQLite makes its files
  lock_ = ::open(path_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, kMode);
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

}  // namespace logbook
