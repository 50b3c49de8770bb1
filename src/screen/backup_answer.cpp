#include "screen/backup_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "words/short_hash.h"

namespace screen {

std::string backup_text(const BackupMade& made, const words::Page& page) {
  auto text = fmt::format("copied and verified: {}\n", made.file);
  if (made.hashes.empty()) {
    text += words::wrapped("its lines have no hashes yet, so only file and tables were looked at",
                           page.width, "  ", "  ");
  } else {
    text += fmt::format("  {}, last hash {}\n",
                        words::counted(static_cast<std::size_t>(made.lines), "line"),
                        words::short_hashes(made.hashes));
  }
  for (const auto& file : made.removed) text += fmt::format("  removed: {}\n", file);
  for (const auto& file : made.different) {
    text += words::wrapped(
        fmt::format("left, since it holds lines that this logbook does not: {}", file), page.width,
        "  ", "    ");
  }
  return text;
}

std::string backup_json(const BackupMade& made) {
  nlohmann::ordered_json json = {
      {"file", made.file},       {"lines", nullptr},
      {"last_hash", nullptr},    {"hashes", nlohmann::ordered_json::array()},
      {"removed", made.removed}, {"different", made.different}};
  if (!made.hashes.empty()) {
    json["lines"] = made.lines;
    json["last_hash"] = made.hashes.back();
    json["hashes"] = made.hashes;
  }
  return json_text(kBackupFormat, std::move(json));
}

}  // namespace screen
