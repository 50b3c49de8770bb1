#include "logbook/lock_holder.h"

#include <fmt/format.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <sys/types.h>

#include <fstream>
#include <sstream>
#include <vector>

namespace logbook {
namespace {

// As /proc/locks names a file: "08:01:123456". Empty where there is none of this name.
std::string kernel_name(const std::string& file) {
  struct stat status {};
  if (::stat(file.c_str(), &status) != 0) return {};
  return fmt::format("{:02x}:{:02x}:{}", major(status.st_dev), minor(status.st_dev), status.st_ino);
}

std::string program_name(const std::string& process) {
  std::string name;
  std::ifstream stream("/proc/" + process + "/comm");
  std::getline(stream, name);
  return name;
}

}  // namespace

std::string lock_holder(const std::string& path) {
  // A writer's lock lies on the index of the write-ahead log, another program's on the file itself.
  const auto index = kernel_name(path + "-shm");
  const auto file = kernel_name(path);
  std::ifstream locks("/proc/locks");
  for (std::string line; std::getline(locks, line);) {
    // 1: POSIX  ADVISORY  WRITE 4711 08:01:123456 120 120
    std::istringstream words(line);
    std::string number, family, kind, access, process, on;
    words >> number >> family >> kind >> access >> process >> on;
    if (access != "WRITE" || on.empty() || (on != index && on != file)) continue;
    const auto name = program_name(process);
    if (!name.empty()) return fmt::format("{}, process {}", name, process);
  }
  return {};
}

}  // namespace logbook
