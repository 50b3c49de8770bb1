#include "cli/export.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>

#include "audit/audit.h"
#include "cli/pending.h"
#include "exchange/logbook_json.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "tables/csv_table.h"
#include "terminal/new_file.h"
#include "terminal/session.h"

namespace cli {

namespace {

// A table has no room for what two people say otherwise: it holds the lines of both.
std::string table_text(const tables::CsvTable& table, const record::Job& job,
                       const terminal::Session& session) {
  if (!job.apart.is_empty()) {
    const auto survey = finding::survey(job);
    std::vector<std::string> ids;
    for (const auto& deviation : audit::run({job, survey, session.done_at()}).deviations) {
      if (deviation.settled == nullptr && audit::is_contradiction(deviation)) {
        ids.push_back(deviation.id);
      }
    }
    if (!ids.empty()) {
      session.remark(fmt::format(
          "merged copies contradict each other, and the table holds the lines of both, which an "
          "import may refuse: settle first {}",
          fmt::join(ids, ", ")));
    }
  }
  return tables::csv_of(table, job);
}

}  // namespace

void declare_export(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<ExportOptions>();
  auto* command = app.add_subcommand(
      "export", "Write the whole logbook as JSON, or one table of it for a spreadsheet (CSV)");
  command
      ->add_option("TABLE", options->table,
                   "joints, wrenches, findings or tightenings; without it everything, as JSON")
      ->option_text("TABLE");
  command->add_option("--to", options->to, "A new file; else to the output")->option_text("FILE");
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_export(*options, session);
    };
  });
}

int run_export(const ExportOptions& options, const terminal::Session& session) {
  if (!options.table.empty() && session.json()) {
    throw failure::UsageError(
        "a table is written as CSV; for JSON leave it out, which writes everything");
  }
  const auto* table = options.table.empty() ? nullptr : &tables::table_named(options.table);
  const auto logbook = session.open_to_read();
  const auto text = table != nullptr ? table_text(*table, logbook.job(), session)
                                     : exchange::write_logbook_json(logbook.copy());
  if (options.to.empty()) {
    session.documents() << text;
  } else {
    terminal::write_new_file(session.reachable(options.to), text);
  }
  return failure::kDone;
}

}  // namespace cli
