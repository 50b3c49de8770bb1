#pragma once

#include <filesystem>
#include <string>

namespace logbook {

// The file in which a new logbook is built before it gets its name, so that no half-made logbook is
// ever seen under it. It lies in the folder of the logbook, as `.starting-ID`, is locked (flock)
// while this program lives and is removed, with what SQLite keeps beside it, when it goes out of
// scope. One that a killed program left is removed by the next start in that folder.
class DraftFile {
 public:
  // LogbookError where no file can be made there.
  explicit DraftFile(const std::filesystem::path& folder);
  ~DraftFile();
  DraftFile(const DraftFile&) = delete;
  DraftFile& operator=(const DraftFile&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
  int lock_ = -1;
};

}  // namespace logbook
