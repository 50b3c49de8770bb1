#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace terminal {

// A file that is written beside its place and takes it when it is whole and on the disk, so that
// none is ever seen half-written; removed again where it does not come to that. Every call throws
// std::system_error where the file system does not let it.
class WholeFile {
 public:
  explicit WholeFile(const std::filesystem::path& target);
  ~WholeFile();
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;

  void write(std::string_view content);

  // In the place of whatever lies there.
  void replace();

  // Where nothing lies. Some memory sticks know no links; there the gap between look and rename is
  // accepted.
  void appear();

 private:
  void finish();

  std::filesystem::path target_;
  std::string draft_;
  int handle_ = -1;
};

}  // namespace terminal
