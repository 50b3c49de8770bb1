#include "cli/backup.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <system_error>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "logbook/backup.h"
#include "logbook/beside_file.h"
#include "logbook/copy_reminder.h"
#include "logbook/folder_named.h"
#include "screen/backup_answer.h"
#include "terminal/progress_bars.h"
#include "terminal/session.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

// Only the folder that nobody named is made: one that was named and is not there is a stick that is
// not plugged in, or a slipped key.
fs::path folder_for_copies(const BackupOptions& options, const std::string& logbook,
                           const terminal::Session& session) {
  if (options.folder.empty()) {
    std::error_code problem;
    auto beside = fs::path(logbook).parent_path() / "copies";
    fs::create_directory(beside, problem);
    if (fs::is_directory(beside, problem)) return beside;
    throw failure::OutputLost(fmt::format(
        "the folder {} could not be made; name one that is there: boltwitness backup FOLDER",
        beside.string()));
  }
  const fs::path folder = session.reachable(options.folder);
  logbook::refuse_part_of_logbook(folder);
  return logbook::folder_or_refuse(folder);
}

std::vector<std::string> names_of(const std::vector<fs::path>& files) {
  std::vector<std::string> names;
  names.reserve(files.size());
  for (const auto& file : files) names.push_back(file.string());
  return names;
}

}  // namespace

void declare_backup(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<BackupOptions>();
  command.add_option("FOLDER", options->folder,
                     "Best on another disk; else \"copies\" beside the logbook");
  command
      .add_option("--keep", options->keep,
                  "Remove older copies of this logbook there but for the newest so many")
      ->option_text("NUMBER");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_backup(*options, session);
    };
  });
}

int run_backup(const BackupOptions& options, const terminal::Session& session) {
  if (options.keep && *options.keep < 1) {
    throw failure::UsageError(fmt::format(
        "--keep {}: expected how many copies stay, this one counted: 1 or more", *options.keep));
  }
  const auto logbook = session.logbook_path();
  std::optional<std::size_t> keep;
  if (options.keep) keep = static_cast<std::size_t>(*options.keep);
  terminal::ProgressBars bars(session);
  const auto made =
      logbook::back_up(logbook, folder_for_copies(options, logbook, session), session.now(), keep,
                       session.waiting(), bars.of_lines("copying"), bars.of_lines("verifying"));
  bars.end();
  if (const auto own = session.state_folder()) {
    logbook::remember_copy(*own, made.file.string(), session.now());
  }
  screen::BackupMade told{
      made.file.string(), 0, {}, names_of(made.removed), names_of(made.different)};
  if (made.verified.chain) {
    told.lines = made.verified.chain->lines;
    for (const auto& end : made.verified.chain->ends) told.hashes.push_back(end.hash);
  }
  session.out() << (session.json() ? screen::backup_json(told)
                                   : screen::backup_text(told, session.prose_page()));
  return failure::kDone;
}

}  // namespace cli
