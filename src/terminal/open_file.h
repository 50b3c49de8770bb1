#pragma once

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>

namespace terminal {

// A file that is opened, and closed when this goes; its handle is below zero where it could not be,
// for the reason in errno.
class OpenFile {
 public:
  OpenFile(const std::filesystem::path& file, int flags)
      : handle_(::open(file.c_str(), flags | O_CLOEXEC)) {}
  ~OpenFile() {
    if (handle_ >= 0) ::close(handle_);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  [[nodiscard]] int handle() const { return handle_; }

 private:
  int handle_;
};

}  // namespace terminal
