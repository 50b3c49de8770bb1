#include "terminal/device.h"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <system_error>

#include "logbook/digest.h"
#include "logbook/draft_file.h"
#include "logbook/entry_id.h"
#include "logbook/logbook_error.h"
#include "logbook/plain_file.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

bool looks_like_an_id(const std::string& text) {
  return text.size() == 36 && text.find_first_not_of("0123456789abcdef-") == std::string::npos;
}

std::string read_id(const fs::path& file) {
  constexpr std::size_t kMostBytes = 64;
  auto id = logbook::begin_of_plain_file(file, kMostBytes);
  id.resize(std::min(id.size(), id.find_first_of(" \t\r\n")));
  return looks_like_an_id(id) ? id : std::string();
}

// Given to the machine when it was set up (machine-id(5)), else its name in the network.
std::string name_of_machine() {
  for (const char* file : {"/etc/machine-id", "/var/lib/dbus/machine-id"}) {
    std::string id;
    std::ifstream(file) >> id;
    if (!id.empty()) return id;
  }
  std::array<char, 256> name{};
  (void)::gethostname(name.data(), name.size() - 1);
  return name.data();
}

// A hash, since that id is not to be handed on; in the form of a UUID of version 8 (RFC 9562),
// which is for what is made up as somebody likes.
std::string computed_id() {
  const auto digits = logbook::sha256("boltwitness device\n" + name_of_machine() + '\n' +
                                      std::to_string(::getuid()));
  return digits.substr(0, 8) + '-' + digits.substr(8, 4) + "-8" + digits.substr(13, 3) + "-8" +
         digits.substr(17, 3) + '-' + digits.substr(20, 12);
}

// Whole and on the disk before it has its name: two commands that start at once must not read half
// an id, and one that a power cut left empty would never be told from a new machine.
void keep_id(const fs::path& folder, const fs::path& file, const std::string& id) {
  std::error_code problem;
  fs::create_directories(folder, problem);
  try {
    const logbook::DraftFile draft(folder);
    const auto text = id + '\n';
    if (!draft.fill(text)) {
      return;
    }
    // Where the other was quicker, its id counts; where what lies there is none, this one does.
    if (!draft.publish_as(file) && read_id(file).empty()) draft.replace(file);
  } catch (const logbook::LogbookError&) {
    return;
  }
}

}  // namespace

std::string device_id(const fs::path& folder) {
  const fs::path file = folder / "device";
  if (auto known = read_id(file); !known.empty()) return known;
  keep_id(folder, file, logbook::random_id());
  const auto kept = read_id(file);
  return kept.empty() ? computed_id() : kept;
}

}  // namespace terminal
