#include "cli/network_program.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <vector>

#include "failure/failure.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

// Beside this program, as it is built, and from its folder where it is installed.
std::vector<fs::path> places() {
  constexpr const char* kName = "boltwitness-network";
  std::error_code unknown;
  const auto folder = fs::read_symlink("/proc/self/exe", unknown).parent_path();
  return {folder / kName, (folder / BOLTWITNESS_NETWORK_FOLDER / kName).lexically_normal()};
}

[[noreturn]] void hand_over(char** command_line) {
  std::vector<std::string> tried;
  for (const auto& place : places()) {
    ::execv(place.c_str(), command_line);  // returns only where it cannot
    tried.push_back(fmt::format("{} ({})", place.string(), std::strerror(errno)));
  }
  throw failure::UsageError(
      fmt::format("serve and fleet are carried out by the program boltwitness-network, which "
                  "cannot be started: {}; install boltwitness as a whole",
                  fmt::join(tried, ", ")));
}

}  // namespace

Network network_program(char** command_line) {
  return {
      .serve = {}, .fleet = {}, .elsewhere = [command_line]() -> int { hand_over(command_line); }};
}

}  // namespace cli
