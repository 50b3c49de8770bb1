#include "cli/export.h"

#include <CLI/CLI.hpp>

#include "cli/pending.h"
#include "exchange/logbook_json.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "tables/csv_table.h"
#include "terminal/new_file.h"
#include "terminal/session.h"

namespace cli {

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
  const auto write = [&](const terminal::Piece& out) {
    if (table != nullptr) return tables::write_csv(*table, logbook, out);
    exchange::LogbookJsonWriter writer(out);
    logbook.copy(writer);
  };
  if (options.to.empty()) {
    write([&](std::string_view piece) { session.documents() << piece; });
  } else {
    terminal::write_new_file(session.reachable(options.to), write);
  }
  return failure::kDone;
}

}  // namespace cli
