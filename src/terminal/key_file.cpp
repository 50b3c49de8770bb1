#include "terminal/key_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <optional>
#include <system_error>

#include "failure/failure.h"
#include "logbook/draft_file.h"
#include "logbook/logbook_error.h"
#include "terminal/open_file.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const fs::path& file, const std::string& why) {
  throw failure::OutputLost(fmt::format("the key {}: {}; nothing was signed", file.string(), why));
}

std::optional<logbook::SigningKey> key_in(const fs::path& file) {
  const OpenFile open(file, O_RDONLY | O_NOCTTY | O_NONBLOCK);
  if (open.handle() < 0) {
    if (errno == ENOENT) return std::nullopt;
    refuse(file, fmt::format("{}; check its permissions", std::strerror(errno)));
  }
  struct stat status {};
  if (::fstat(open.handle(), &status) != 0 || !S_ISREG(status.st_mode)) {
    refuse(file, "it is no file; move it away, and a new one is made");
  }
  if ((status.st_mode & 077U) != 0) {
    refuse(file, fmt::format("others may read it (mode {:o}); take that away with chmod 600, and "
                             "where somebody may have copied it, move it away: a new one is made",
                             status.st_mode & 0777U));
  }
  std::array<char, 2 * logbook::SigningKey::kSeedDigits> content{};
  const auto size = ::read(open.handle(), content.data(), content.size());
  std::string_view digits(content.data(), size < 0 ? 0 : static_cast<std::size_t>(size));
  if (digits.ends_with('\n')) digits.remove_suffix(1);
  try {
    return logbook::SigningKey::of_seed(digits);
  } catch (const failure::InputError& error) {
    refuse(file, fmt::format("{}; go back to a copy of it, or move it away", error.what()));
  }
}

}  // namespace

PersonsKey persons_key(const fs::path& folder) {
  const fs::path file = folder / "signing-key";
  if (auto known = key_in(file)) return {*known, file, false};
  std::error_code problem;
  fs::create_directories(folder, problem);
  const auto key = logbook::SigningKey::make();
  const auto text = key.seed() + '\n';
  try {
    // Whole or not at all: what a killed program left would stand in the way for good.
    const logbook::DraftFile draft(folder, 0600U);
    if (!draft.fill(text)) {
      refuse(file, fmt::format("it cannot be written: {}", logbook::why_not_written(errno)));
    }
    if (draft.publish_as(file)) return {key, file, true};
  } catch (const logbook::LogbookError& error) {
    refuse(file, fmt::format("it cannot be made ({})", error.what()));
  }
  // Another program was quicker.
  auto known = key_in(file);
  if (!known) refuse(file, "it cannot be made; check the folder");
  return {*known, file, false};
}

}  // namespace terminal
