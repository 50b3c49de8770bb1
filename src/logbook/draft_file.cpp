#include "logbook/draft_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <system_error>
#include <vector>

#include "logbook/entry_id.h"
#include "logbook/logbook_error.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kPrefix = ".writing-";
// And that of versions before schema 15.
constexpr std::array kPrefixes = {kPrefix, std::string_view(".starting-")};

// The draft itself goes last: where the program is killed meanwhile, it still names the rest.
void remove_with_tails(const fs::path& draft) {
  std::error_code ignored;
  for (const char* tail : {"-wal", "-shm", "-journal", ""})
    fs::remove(draft.string() + tail, ignored);
}

// A prefix and the 36 characters of an id, and nothing behind.
bool is_draft_name(std::string_view name) {
  constexpr std::size_t kIdLength = 36;
  return std::ranges::any_of(kPrefixes, [&](std::string_view prefix) {
    return name.starts_with(prefix) && name.size() == prefix.size() + kIdLength &&
           name.find_first_not_of("0123456789abcdef-", prefix.size()) == std::string_view::npos;
  });
}

[[noreturn]] void refuse_name(const fs::path& name, int reason) {
  throw LogbookError(LogbookError::Kind::Unreachable,
                     fmt::format("{} could not be made: {}; check the folder and the room on the "
                                 "disk",
                                 name.string(), why_not_written(reason)));
}

// What a new name has to be followed by, so that a power cut does not undo it: 0, or why it was not
// done. Some file systems do it by themselves and know no such request.
int sync_folder_of(const fs::path& name) {
  const int handle = ::open(name.parent_path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return 0;
  const int reason = ::fsync(handle) == 0 ? 0 : errno;
  ::close(handle);
  return reason == EIO || reason == ENOSPC ? reason : 0;
}

}  // namespace

// A draft whose lock can be had is nobody's any more. One that is just being made has no lock yet
// either: whoever makes it looks whether it was taken for a stale one (DraftFile::make).
void remove_stale_drafts(const fs::path& folder) {
  std::error_code problem;
  std::vector<fs::path> drafts;
  for (fs::directory_iterator at(folder, problem), end; !problem && at != end;
       at.increment(problem)) {
    std::error_code ignored;
    if (is_draft_name(at->path().filename().string()) &&
        fs::is_regular_file(at->symlink_status(ignored))) {
      drafts.push_back(at->path());
    }
  }
  for (const auto& draft : drafts) {
    // What is no file any more must not hold us up.
    const int handle = ::open(draft.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
    if (handle < 0) continue;
    if (::flock(handle, LOCK_EX | LOCK_NB) == 0) remove_with_tails(draft);
    ::close(handle);
  }
}

DraftFile::DraftFile(const fs::path& folder, unsigned mode) {
  remove_stale_drafts(folder);
  while (!make(fs::absolute(folder), mode)) ::close(handle_);
}

bool DraftFile::make(const fs::path& folder, unsigned mode) {
  path_ = folder / fmt::format("{}{}", kPrefix, random_id());
  handle_ = ::open(path_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, mode);
  if (handle_ < 0) {
    throw LogbookError(
        LogbookError::Kind::Unreachable,
        fmt::format("nothing can be written in the folder {}: {}; check its permissions and the "
                    "room on the disk, or choose another",
                    folder.string(), why_not_written(errno)));
  }
  // Where a folder knows no locks, nobody can take this draft for a stale one either.
  if (::flock(handle_, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) return false;
  // Its name is nobody else's, so that what is there is this file.
  struct stat status {};
  return ::lstat(path_.c_str(), &status) == 0 || errno != ENOENT;
}

DraftFile::~DraftFile() {
  remove_with_tails(path_);
  ::close(handle_);
}

bool DraftFile::add(std::string_view text) const {
  while (!text.empty()) {
    const auto count = ::write(handle_, text.data(), text.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

bool DraftFile::make_sure() const { return ::fsync(handle_) == 0; }

bool DraftFile::fill(std::string_view text) const { return add(text) && make_sure(); }

void DraftFile::set_mode(unsigned mode) const { (void)::fchmod(handle_, mode); }

bool DraftFile::publish_as(const fs::path& name) const {
  // Unlike a link, which older file systems and some memory sticks take instead, it never leaves
  // the file with two names where the program is killed.
  if (::renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, name.c_str(), RENAME_NOREPLACE) != 0) {
    if (errno == EEXIST) return false;
    if (errno != EINVAL && errno != ENOSYS) refuse_name(name, errno);
    if (::link(path_.c_str(), name.c_str()) != 0) {
      if (errno == EEXIST) return false;
      refuse_name(name, errno);
    }
  }
  if (const int reason = sync_folder_of(name); reason != 0) {
    ::unlink(name.c_str());
    refuse_name(name, reason);
  }
  return true;
}

void DraftFile::replace(const fs::path& name) const {
  if (::rename(path_.c_str(), name.c_str()) != 0) refuse_name(name, errno);
  if (const int reason = sync_folder_of(name); reason != 0) {
    throw LogbookError(
        LogbookError::Kind::Unreachable,
        fmt::format("{} is written, but the disk does not confirm that it took the place of the "
                    "earlier one ({}), which a power cut may bring back; check the disk and do it "
                    "once more",
                    name.string(), why_not_written(reason)));
  }
}

}  // namespace logbook
