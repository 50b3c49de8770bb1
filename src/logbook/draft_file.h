#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace logbook {

// The file in which something new (a logbook, the copy of one, an export, a page) is built before
// it gets its name, so that nothing half-made is ever seen under it. It lies in the folder of what
// it is to be, as `.writing-ID`, is locked (flock) while this program lives and is removed, with
// what SQLite keeps beside it, when it goes out of scope. One that a killed program left is removed
// by the next draft in that folder; many programs may make theirs in one folder at once.
class DraftFile {
 public:
  // The permissions that SQLite gives its files, and those of any other.
  static constexpr unsigned kOfLogbook = 0644;
  static constexpr unsigned kOfPage = 0666;

  // With these permissions, less what the user's mask takes. LogbookError where no file can be made
  // there.
  explicit DraftFile(const std::filesystem::path& folder, unsigned mode = kOfLogbook);
  ~DraftFile();
  DraftFile(const DraftFile&) = delete;
  DraftFile& operator=(const DraftFile&) = delete;

  // From the root of the disk.
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  // Writes this behind what was written so far. False where it does not take all of it; errno says
  // why (why_not_written).
  [[nodiscard]] bool add(std::string_view text) const;

  // The same for all that was added, down to the disk.
  [[nodiscard]] bool make_sure() const;

  // Both.
  [[nodiscard]] bool fill(std::string_view text) const;

  // Gives it these permissions, whatever the mask.
  void set_mode(unsigned mode) const;

  // Gives it this name in the same folder, for good. False where something has that name already,
  // be it a link that leads nowhere: nothing is ever replaced and no link followed. LogbookError
  // where the folder takes no name, or the disk does not confirm it; nothing has the name then.
  [[nodiscard]] bool publish_as(const std::filesystem::path& name) const;

  // The same in the place of whatever has that name, which is gone even where the disk does not
  // confirm it.
  void replace(const std::filesystem::path& name) const;

 private:
  // False where another program took it away before it was locked.
  [[nodiscard]] bool make(const std::filesystem::path& folder, unsigned mode);

  std::filesystem::path path_;
  int handle_ = -1;
};

// Removes from this folder the drafts of programs that were killed.
void remove_stale_drafts(const std::filesystem::path& folder);

}  // namespace logbook
