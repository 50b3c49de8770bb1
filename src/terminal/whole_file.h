#pragma once

#include <filesystem>
#include <functional>
#include <string_view>

#include "logbook/draft_file.h"

namespace terminal {

// A file that is written beside its place and takes it when it is whole and on the disk, so that
// none is ever seen half-written; removed again where it does not come to that. InputError where
// there is no such folder, LogbookError where it takes no file; std::system_error where the disk
// takes no more of it.
class WholeFile {
 public:
  explicit WholeFile(const std::filesystem::path& target);

  void write(std::string_view content);

  // In the place of whatever lies there.
  void replace();

  // Where nothing lies; std::system_error (EEXIST) where something does meanwhile.
  void appear();

 private:
  void finish();

  std::filesystem::path target_;
  logbook::DraftFile draft_;
};

// Hands a text over piece by piece, in its order, as where all of it would be more than is held at
// once. What it throws leaves nothing of the file behind.
using Writing = std::function<void(const std::function<void(std::string_view piece)>& take)>;

// Writes a file in the place of whatever lies there. OutputLost where it cannot be written, with
// nothing changed; InputError and LogbookError as WholeFile.
void put_whole_file(const std::filesystem::path& target, std::string_view content);
void put_whole_file(const std::filesystem::path& target, const Writing& writing);

}  // namespace terminal
