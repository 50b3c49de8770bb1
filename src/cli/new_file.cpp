#include "cli/new_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "cli/errors.h"
#include "logbook/logbook_error.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const std::string& path, int reason) {
  const auto kind = reason == ENOSPC ? logbook::LogbookError::Kind::Full
                                     : logbook::LogbookError::Kind::Unreachable;
  throw logbook::LogbookError(
      kind, fmt::format("{} could not be written ({}); nothing is left of it; check the folder and "
                        "the room on the disk",
                        path, std::strerror(reason)));
}

// The file under another name until it is whole; removed where it does not come to that.
class UnfinishedFile {
 public:
  explicit UnfinishedFile(const std::string& path)
      : path_(path), unfinished_(path + ".unfinished") {
    constexpr mode_t kMode = 0644;
    handle_ = ::open(unfinished_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, kMode);
    if (handle_ < 0) fail(path_, errno);
  }
  ~UnfinishedFile() {
    ::close(handle_);
    std::error_code ignored;
    fs::remove(unfinished_, ignored);
  }
  UnfinishedFile(const UnfinishedFile&) = delete;
  UnfinishedFile& operator=(const UnfinishedFile&) = delete;

  void write(std::string_view content) {
    while (!content.empty()) {
      const auto written = ::write(handle_, content.data(), content.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) fail(path_, errno);
      content.remove_prefix(static_cast<std::size_t>(written));
    }
    if (::fsync(handle_) != 0) fail(path_, errno);
  }

  // A link, unlike a rename, never replaces a file that appeared meanwhile. Some memory sticks know
  // no links; there the gap between look and rename is accepted.
  void give_its_name() {
    if (::link(unfinished_.c_str(), path_.c_str()) == 0) return;
    if (errno == EEXIST || ::rename(unfinished_.c_str(), path_.c_str()) != 0) fail(path_, errno);
  }

 private:
  std::string path_;
  std::string unfinished_;
  int handle_ = -1;
};

}  // namespace

void write_new_file(const std::string& path, std::string_view content) {
  std::error_code problem;
  if (fs::exists(fs::symlink_status(path, problem))) {
    throw Refusal(
        fmt::format("{} is there already and was left as it is; choose another name", path));
  }
  UnfinishedFile file(path);
  file.write(content);
  file.give_its_name();
}

}  // namespace cli
