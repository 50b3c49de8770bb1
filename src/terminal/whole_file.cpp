#include "terminal/whole_file.h"

#include <fmt/format.h>

#include <cerrno>
#include <system_error>

#include "failure/failure.h"
#include "logbook/folder_named.h"
#include "logbook/logbook_error.h"

namespace terminal {
namespace {

[[noreturn]] void fail(int reason) { throw std::system_error(reason, std::generic_category()); }

}  // namespace

WholeFile::WholeFile(const std::filesystem::path& target)
    : target_(std::filesystem::absolute(target)),
      draft_(logbook::folder_or_refuse(target_.parent_path()), logbook::DraftFile::kOfPage) {}

void WholeFile::write(std::string_view content) {
  if (!draft_.add(content)) fail(errno);
}

void WholeFile::finish() {
  if (!draft_.make_sure()) fail(errno);
}

void WholeFile::replace() {
  finish();
  draft_.replace(target_);
}

void WholeFile::appear() {
  finish();
  if (!draft_.publish_as(target_)) fail(EEXIST);
}

void put_whole_file(const std::filesystem::path& target, std::string_view content) {
  put_whole_file(target, [&](const auto& take) { take(content); });
}

void put_whole_file(const std::filesystem::path& target, const Writing& writing) {
  try {
    WholeFile whole(target);
    writing([&](std::string_view piece) { whole.write(piece); });
    whole.replace();
  } catch (const std::system_error& error) {
    throw failure::OutputLost(fmt::format("{} could not be written: {}; nothing was changed",
                                          target.string(),
                                          logbook::why_not_written(error.code().value())));
  }
}

}  // namespace terminal
