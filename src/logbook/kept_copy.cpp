#include "logbook/kept_copy.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sys/stat.h>

#include <filesystem>

#include "logbook/connection.h"
#include "logbook/waiting.h"

namespace logbook {
namespace {

unsigned permissions_of(const std::string& file) {
  struct stat status {};
  return ::stat(file.c_str(), &status) == 0 ? status.st_mode & 07777U : 0600U;
}

}  // namespace

KeptCopy::KeptCopy(const std::string& file, Waiting& waiting)
    : file_(file),
      mode_(permissions_of(file)),
      draft_(std::filesystem::path(file).parent_path(), mode_ & 0600U) {
  const auto earlier = connect(file, SQLite::OPEN_READONLY, waiting);
  const auto copy = connect(draft_.path().string(), SQLite::OPEN_READWRITE, Waiting::not_at_all());
  copy_pages(*copy, *earlier);
}

std::string KeptCopy::publish(std::string_view tail) const {
  draft_.set_mode(mode_);
  const auto first = fmt::format("{}.{}", file_, tail);
  auto name = first;
  for (int number = 2; !draft_.publish_as(name); ++number) {
    name = fmt::format("{}-{}", first, number);
  }
  return name;
}

}  // namespace logbook
