#include "logbook/plain_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

namespace logbook {

std::string begin_of_plain_file(const std::filesystem::path& file, std::size_t most) {
  std::string begin(most, '\0');
  // A pipe that nobody writes to is not waited for.
  const int handle = ::open(file.c_str(), O_RDONLY | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
  if (handle < 0) return {};
  struct stat status {};
  const bool is_plain = ::fstat(handle, &status) == 0 && S_ISREG(status.st_mode);
  std::size_t size = 0;
  while (is_plain && size < most) {
    const auto count = ::read(handle, begin.data() + size, most - size);
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) break;
    size += static_cast<std::size_t>(count);
  }
  ::close(handle);
  begin.resize(size);
  return begin;
}

}  // namespace logbook
