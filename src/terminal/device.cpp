#include "terminal/device.h"

#include <fstream>
#include <system_error>

#include "logbook/entry_id.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

bool looks_like_an_id(const std::string& text) {
  return text.size() == 36 && text.find_first_not_of("0123456789abcdef-") == std::string::npos;
}

std::string read_id(const fs::path& file) {
  std::string id;
  std::ifstream(file) >> id;
  return looks_like_an_id(id) ? id : std::string();
}

}  // namespace

std::string device_id(const fs::path& folder) {
  const fs::path file = folder / "device";
  if (auto known = read_id(file); !known.empty()) return known;

  const std::string fresh = logbook::random_id();
  std::error_code problem;
  fs::create_directories(folder, problem);
  // Under another name first: two commands that start at once must not read half an id.
  const fs::path draft = folder / ("." + fresh);
  std::ofstream writing(draft);
  writing << fresh << '\n';
  writing.close();
  if (writing) fs::create_hard_link(draft, file, problem);  // fails where the other was quicker
  fs::remove(draft, problem);
  const auto kept = read_id(file);
  return kept.empty() ? fresh : kept;
}

}  // namespace terminal
