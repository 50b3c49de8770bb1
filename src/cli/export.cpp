#include "cli/export.h"

#include <CLI/CLI.hpp>

#include "cli/json_lines_option.h"
#include "cli/pending.h"
#include "exchange/csv.h"
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
  command->add_option("--to", options->to, "A new file; else, and for -, to the output")
      ->option_text("FILE");
  command->add_flag("--decimal-comma", options->decimal_comma,
                    "A table for a spreadsheet that writes 1,5: semicolons between the cells");
  declare_json_lines(*command, options->json_lines);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_export(*options, session);
    };
  });
}

int run_export(const ExportOptions& options, const terminal::Session& session) {
  if (!options.table.empty() && (session.json() || options.json_lines)) {
    throw failure::UsageError(
        "a table is written as CSV; for JSON leave it out, which writes everything");
  }
  if (options.table.empty() && options.decimal_comma) {
    throw failure::UsageError(
        "JSON has its own numbers; --decimal-comma is for a table, such as export joints");
  }
  const auto* table = options.table.empty() ? nullptr : &tables::table_named(options.table);
  const auto decimals = options.decimal_comma ? exchange::Decimals::Comma : exchange::Decimals::Point;
  const auto logbook = session.open_to_read();
  const auto text =
      table != nullptr     ? tables::csv_of(*table, logbook.job(), decimals)
      : options.json_lines ? exchange::write_logbook_json_lines(logbook.copy())
                           : exchange::write_logbook_json(logbook.copy());
  if (options.to.empty() || options.to == "-") {
    session.documents() << text;
  } else {
    terminal::write_new_file(session.reachable(options.to), text);
  }
  return failure::kDone;
}

}  // namespace cli
