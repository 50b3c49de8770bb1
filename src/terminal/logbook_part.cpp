#include "terminal/logbook_part.h"

#include <fmt/format.h>

#include <array>
#include <fstream>
#include <string_view>

#include "failure/failure.h"

namespace terminal {

namespace fs = std::filesystem;

std::string begin_of(const fs::path& file) {
  std::array<char, 128> bytes{};
  std::ifstream stream(file, std::ios::binary);
  stream.read(bytes.data(), bytes.size());
  return {bytes.data(), static_cast<std::size_t>(stream.gcount())};
}

bool is_database(const fs::path& file) { return begin_of(file).starts_with("SQLite format 3"); }

void refuse_part_of_logbook(const fs::path& file) {
  const auto name = file.string();
  for (const std::string_view part : {"-wal", "-shm", "-journal"}) {
    if (!name.ends_with(part)) continue;
    const auto logbook = name.substr(0, name.size() - part.size());
    if (is_database(logbook)) {
      throw failure::Refusal(
          fmt::format("{} belongs to {}, a logbook or another database; choose another "
                      "name",
                      name, logbook));
    }
  }
}

}  // namespace terminal
