#include "terminal/bounded_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "failure/failure.h"
#include "terminal/open_file.h"

namespace terminal {
namespace {

[[noreturn]] void refuse_unreadable(const std::string& path, int reason) {
  throw failure::InputError(fmt::format("{} cannot be read ({}); check its name and permissions",
                                        path, std::strerror(reason)));
}

}  // namespace

void refuse_too_large(const std::string& name, std::size_t most) {
  throw failure::InputError(
      fmt::format("{} holds more than {} MiB, and no more is taken; make it "
                  "smaller: 2000 points on the long side show all that is "
                  "needed",
                  name, most >> 20U));
}

std::string read_bounded_file(const std::string& path, std::size_t most) {
  // A pipe that nobody writes to is not waited for.
  const OpenFile file(path, O_RDONLY | O_NOCTTY | O_NONBLOCK);
  if (file.handle() < 0) refuse_unreadable(path, errno);
  struct stat status {};
  if (::fstat(file.handle(), &status) != 0) refuse_unreadable(path, errno);
  if (!S_ISREG(status.st_mode)) {
    throw failure::InputError(fmt::format("{} is {}; expected the file of a photograph", path,
                                          S_ISDIR(status.st_mode) ? "a folder" : "no file"));
  }
  if (status.st_size > static_cast<off_t>(most)) refuse_too_large(path, most);
  std::string content(most + 1, '\0');
  std::size_t size = 0;
  while (size < content.size()) {
    const auto count = ::read(file.handle(), content.data() + size, content.size() - size);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) refuse_unreadable(path, errno);
    if (count == 0) break;
    size += static_cast<std::size_t>(count);
  }
  if (size > most) refuse_too_large(path, most);
  content.resize(size);
  return content;
}

}  // namespace terminal
