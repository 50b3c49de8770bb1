#pragma once

#include <filesystem>
#include <string>

namespace logbook {

// The file in which a new logbook, or the copy of one, is built before it gets its name, so that no
// half-made logbook is ever seen under it. It lies in the folder of the logbook, as `.starting-ID`,
// is locked (flock) while this program lives and is removed, with what SQLite keeps beside it, when
// it goes out of scope. One that a killed program left is removed by the next start in that folder.
class DraftFile {
 public:
  // The permissions that SQLite gives its files.
  static constexpr unsigned kUsualMode = 0644;

  // With these permissions, less what the user's mask takes. LogbookError where no file can be made
  // there.
  explicit DraftFile(const std::filesystem::path& folder, unsigned mode = kUsualMode);
  ~DraftFile();
  DraftFile(const DraftFile&) = delete;
  DraftFile& operator=(const DraftFile&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  // Gives it these permissions, whatever the mask.
  void set_mode(unsigned mode) const;

  // Gives it this name in the same folder, for good. False where something has that name already,
  // be it a link that leads nowhere: nothing is ever replaced and no link followed. LogbookError
  // where the folder takes no name.
  [[nodiscard]] bool publish_as(const std::filesystem::path& name) const;

 private:
  std::filesystem::path path_;
  int lock_ = -1;
};

}  // namespace logbook
