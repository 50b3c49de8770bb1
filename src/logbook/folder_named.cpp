#include "logbook/folder_named.h"

#include <fmt/format.h>

#include <system_error>

#include "failure/failure.h"

namespace logbook {

namespace fs = std::filesystem;

const fs::path& folder_or_refuse(const fs::path& folder) {
  std::error_code problem;
  const auto status = fs::status(folder, problem);
  // Where the way to it may not be looked into nobody knows.
  if (fs::is_directory(status) || !fs::status_known(status)) return folder;
  throw failure::InputError(
      fmt::format("there is no folder {}; make it first, or plug in what it is on",
                  fs::absolute(folder).string()));
}

}  // namespace logbook
