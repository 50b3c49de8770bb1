#include "terminal/whole_file.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <system_error>

namespace terminal {
namespace {

[[noreturn]] void fail() { throw std::system_error(errno, std::generic_category()); }

}  // namespace

WholeFile::WholeFile(const std::filesystem::path& target)
    : target_(target), draft_((target.parent_path() / ".writing-XXXXXX").string()) {
  handle_ = ::mkstemp(draft_.data());
  if (handle_ < 0) fail();
}

WholeFile::~WholeFile() {
  ::close(handle_);
  if (!draft_.empty()) ::unlink(draft_.c_str());
}

void WholeFile::write(std::string_view content) {
  while (!content.empty()) {
    const auto count = ::write(handle_, content.data(), content.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) fail();
    content.remove_prefix(static_cast<std::size_t>(count));
  }
}

void WholeFile::finish() {
  const mode_t hidden = ::umask(0);
  ::umask(hidden);
  if (::fchmod(handle_, 0666 & ~hidden) != 0 || ::fsync(handle_) != 0) fail();
}

void WholeFile::replace() {
  finish();
  if (::rename(draft_.c_str(), target_.c_str()) != 0) fail();
  draft_.clear();
}

void WholeFile::appear() {
  finish();
  if (::link(draft_.c_str(), target_.c_str()) == 0) return;
  if (errno == EEXIST || ::rename(draft_.c_str(), target_.c_str()) != 0) fail();
  draft_.clear();
}

}  // namespace terminal
