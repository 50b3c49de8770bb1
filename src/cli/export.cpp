#include "cli/export.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <map>
#include <set>
#include <utility>

#include "audit/audit.h"
#include "cli/json_lines_option.h"
#include "cli/pending.h"
#include "exchange/csv.h"
#include "exchange/logbook_json.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "logbook/digest.h"
#include "screen/written_file.h"
#include "tables/csv_table.h"
#include "terminal/new_file.h"
#include "terminal/progress_bars.h"
#include "terminal/session.h"
#include "words/text.h"

namespace cli {

namespace {

// A table has no room for what two people say otherwise: it holds the lines of both.
void tell_contradictions(const logbook::Logbook& logbook, terminal::ProgressBars& bars,
                         const terminal::Session& session) {
  if (!logbook.is_merged()) return;
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  std::vector<std::string> ids;
  for (const auto& deviation : audit::run({job, survey, session.done_at()}).deviations) {
    if (deviation.settled == nullptr && audit::is_contradiction(deviation)) {
      ids.push_back(deviation.id);
    }
  }
  if (ids.empty()) return;
  bars.end();
  session.remark(fmt::format(
      "merged copies contradict each other, and the table holds the lines of both, which an import "
      "may refuse: settle first {}",
      fmt::join(ids, ", ")));
}

}  // namespace

void declare_export(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<ExportOptions>();
  command.add_option(
      "TABLE", options->table,
      "joints, wrenches, findings, tightenings or photographs; without it everything, "
      "as JSON");
  command.add_option("--to", options->to, "A new file; else, and for -, to the output")
      ->option_text("FILE");
  command.add_flag("--decimal-comma", options->decimal_comma,
                   "A table for a spreadsheet that writes 1,5: semicolons between the cells");
  declare_json_lines(command, options->json_lines);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_export(*options, session);
    };
  });
}

namespace {

namespace fs = std::filesystem;

// Lays the photographs beside the table that names them and tells how many lie there. What lies
// there already is left where it is the same. Refusal, before anything is written, where it is not;
// LogbookError, before that too, for one that is not what was kept.
std::size_t lay_beside(const fs::path& table, const logbook::Logbook& logbook,
                       const terminal::Session& session) {
  std::map<std::string, record::Photograph> missing;
  std::set<std::string> names;
  for (const auto& entry : logbook.photographs()) {
    const auto name = tables::file_name_of(entry.content);
    names.insert(name);
    const auto file = (table.parent_path() / name).string();
    std::error_code problem;
    if (!fs::exists(fs::symlink_status(file, problem))) {
      missing.emplace(name, entry.content);
    } else if (logbook::sha256(session.picture_in(file)) != entry.content.sha256) {
      throw failure::Refusal(fmt::format(
          "{} is there already and another; choose another folder for the table", file));
    }
  }
  for (const auto& [name, photograph] : missing) (void)logbook.bytes_of(photograph);
  for (const auto& [name, photograph] : missing) {
    terminal::write_new_file((table.parent_path() / name).string(), logbook.bytes_of(photograph));
  }
  return names.size();
}

}  // namespace

int run_export(const ExportOptions& typed, const terminal::Session& session) {
  auto options = typed;
  // "export -" is everything to the output.
  if (options.table == "-" && options.to.empty()) std::swap(options.table, options.to);
  const bool to_output = options.to.empty() || options.to == "-";
  // With a file named --json asks for the answer, which tells of that file.
  if (!options.table.empty() && ((session.json() && to_output) || options.json_lines)) {
    throw failure::UsageError(
        "a table is written as CSV; for JSON leave it out, which writes everything");
  }
  if (options.table.empty() && options.decimal_comma) {
    throw failure::UsageError(
        "JSON has its own numbers; --decimal-comma is for a table, such as export joints");
  }
  const auto* table = options.table.empty() ? nullptr : &tables::table_named(options.table);
  const auto decimals =
      options.decimal_comma ? exchange::Decimals::Comma : exchange::Decimals::Point;
  terminal::ProgressBars bars(session);
  auto logbook = session.open_to_read();
  // No bar where the answer itself is shown.
  if (!session.is_shown(options.to)) logbook.show_progress(bars.of_lines("exporting"));
  const auto writing = [&](const exchange::TakeText& take) {
    if (table != nullptr) {
      tell_contradictions(logbook, bars, session);
      return tables::write_csv(*table, logbook, decimals, take);
    }
    logbook.check_photographs();
    exchange::LogbookJsonWriter writer(
        options.json_lines ? exchange::LogbookForm::JsonLines : exchange::LogbookForm::Document,
        take, [&](const std::string& sha256) { return logbook.photograph_with(sha256); });
    logbook.copy(writer);
  };
  const bool has_files = table == &tables::photograph_table();
  if (to_output) {
    writing([&](std::string_view piece) { session.documents() << piece; });
    bars.end();
    if (has_files) {
      session.remark(
          "the photographs themselves are laid beside the table where --to names a file");
    }
  } else {
    const auto file = session.reachable(options.to);
    terminal::check_new_file(file);  // before anything is laid beside it
    const auto photographs = has_files ? lay_beside(file, logbook, session) : 0;
    terminal::write_new_file(file, writing);
    bars.end();
    if (photographs > 0) {
      session.remark(fmt::format("beside it: {}, each in a file of its own",
                                 words::counted(photographs, "photograph")));
    }
    session.out() << (session.json() ? screen::written_file_json(options.to)
                                     : screen::written_file_text(options.to));
  }
  return failure::kDone;
}

}  // namespace cli
