#include "terminal/new_file.h"

#include <fmt/format.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

#include "failure/failure.h"
#include "logbook/beside_file.h"
#include "logbook/logbook_error.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const std::string& path, int reason) {
  const auto kind = reason == ENOSPC ? logbook::LogbookError::Kind::Full
                                     : logbook::LogbookError::Kind::Unreachable;
  throw logbook::LogbookError(
      kind, fmt::format("{} could not be written: {}; nothing is left of it; check the folder and "
                        "the room on the disk",
                        path, logbook::why_not_written(reason)));
}

}  // namespace

void check_new_file(const std::string& path) {
  logbook::refuse_name_of_logbook(path);
  std::error_code problem;
  if (fs::exists(fs::symlink_status(path, problem))) {
    throw failure::Refusal(
        fmt::format("{} is there already and was left as it is; choose another name", path));
  }
}

void write_new_file(const std::string& path, std::string_view content) {
  write_new_file(path, [&](const auto& take) { take(content); });
}

void write_new_file(const std::string& path, const Writing& writing) {
  check_new_file(path);
  try {
    WholeFile file(path);
    writing([&](std::string_view piece) { file.write(piece); });
    file.appear();
  } catch (const std::system_error& error) {
    fail(path, error.code().value());
  }
}

}  // namespace terminal
