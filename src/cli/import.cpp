#include "cli/import.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>

#include "act/photograph_entry.h"
#include "cli/pending.h"
#include "exchange/csv.h"
#include "exchange/logbook_json.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "logbook/restore.h"
#include "quantity/number_text.h"
#include "screen/import_answer.h"
#include "tables/table_intake.h"
#include "terminal/progress_bar.h"
#include "terminal/session.h"

namespace cli {
namespace {

// JSON begins with a brace or a bracket; no header of a table does.
bool is_json(std::string_view content) {
  const auto first = content.find_first_not_of("\xEF\xBB\xBF \t\r\n");
  return first != std::string_view::npos && (content[first] == '{' || content[first] == '[');
}

// InputError for what is neither table nor copy of a logbook, whatever would be read in it.
void check_is_text(std::string_view file, std::string_view content) {
  constexpr const char* kExpected =
      "expected a table with the names of its columns in the first line, or the copy of a logbook";
  if (content.find_first_not_of("\xEF\xBB\xBF \t\r\n") == std::string_view::npos) {
    throw failure::InputError(fmt::format(
        "{}: there is nothing in it; {}; \"boltwitness export joints\" writes one to begin with",
        file, kExpected));
  }
  if (content.starts_with("\xFF\xFE") || content.starts_with("\xFE\xFF")) {
    throw failure::InputError(fmt::format(
        "{}: begins with the byte order mark of UTF-16; {}, in UTF-8; save it again from the "
        "spreadsheet as CSV in UTF-8",
        file, kExpected));
  }
}

// InputError where every line ends with CR alone, so that the whole is one line to the reader.
void check_line_ends(std::string_view file, std::string_view content,
                     const exchange::CsvText& text) {
  if (content.find('\n') != std::string_view::npos || text.faults.empty()) return;
  const auto end = content.find('\r');
  if (end == std::string_view::npos || end + 1 == content.size()) return;
  throw failure::InputError(fmt::format(
      "{}: line 1, column {}: the lines of the whole file end with CR alone; expected LF or CR LF; "
      "save it again from the spreadsheet as CSV in UTF-8",
      file, text.faults.front().column));
}

void tell(const screen::Imported& imported, const terminal::Session& session) {
  session.out() << (session.json() ? screen::imported_json(imported)
                                   : screen::imported_text(imported, session.prose_page()));
}

void import_logbook(const ImportOptions& options, const std::string& content,
                    const terminal::Session& session) {
  if (!options.as.empty()) {
    throw failure::UsageError("--as names a table; this file is the copy of a whole logbook");
  }
  const auto path = session.new_logbook_path();
  const auto copy = exchange::read_logbook_json(content);
  {
    terminal::ProgressBar bar(session, "lines", copy.lines.size());
    const auto restore = options.check ? logbook::check_restorable : logbook::restore_logbook;
    restore(
        path, copy, [&](const auto& take) { exchange::each_photograph(content, take); },
        [&] { bar.step(); });
  }
  const auto first = copy.lines.empty() ? 0 : copy.lines.front().line;
  tell({std::string(screen::kWholeLogbook), copy.lines.size(), copy.lines.size(), first,
        !options.check},
       session);
}

// A name alone: nothing is read but what lies beside the table.
std::string file_beside(const ImportOptions& options, const std::string& name,
                        const terminal::Session& session) {
  if (name.empty() || name.starts_with('.') || name.find('/') != std::string::npos) {
    throw failure::InputError(
        fmt::format("{} is no name of a file beside the table; expected one such as {}",
                    quantity::quoted(name), "washer.jpg"));
  }
  return session.picture_in((std::filesystem::path(options.file).parent_path() / name).string());
}

// InputError where the file is not any more what it was when its row was taken.
void keep_picture(const tables::NewLine& line, const std::string& bytes,
                  logbook::Recording& recording) {
  const auto picture = record::read_picture(bytes);
  if (act::photograph_of(picture).sha256 != std::get<record::Photograph>(line.content).sha256) {
    throw failure::InputError(
        fmt::format("{} was changed while it was read; nothing was written", line.file));
  }
  recording.keep_photograph(picture.bytes);
}

tables::TakenTable taken_or_refused(const std::string& file, tables::TakenTable taken) {
  if (!taken.faults.empty()) throw failure::InputError(tables::faults_text(file, taken));
  return taken;
}

void import_table(const ImportOptions& options, const std::string& content,
                  const terminal::Session& session) {
  const auto text = exchange::read_csv(content);
  check_line_ends(options.file, content, text);
  const auto& table = tables::table_of(text, options.as);
  const auto writer = session.writer();
  const tables::FileBeside beside = [&](const std::string& name) {
    return file_beside(options, name, session);
  };
  const auto taken_from = [&](record::Job job) {
    terminal::ProgressBar bar(session, std::string(table.name), text.rows.size());
    return taken_or_refused(
        options.file, tables::take_table(text, table, std::move(job), writer, beside, [&] { bar.step(); }));
  };
  // Checked before the logbook is opened for writing, so that one of an earlier version is not even
  // brought up to date for a file that cannot be taken.
  auto taken = taken_from(session.open_to_read().job());
  screen::Imported imported{std::string(table.name), text.rows.size() - 1, taken.lines.size(), 0,
                            !options.check};
  if (!options.check) {
    auto logbook = session.open_to_write();
    logbook::Recording recording(logbook, writer);
    // Nobody else writes from here on; somebody may have until now.
    taken = taken_from(logbook.job());
    terminal::ProgressBar bar(session, "writing", taken.lines.size());
    for (const auto& line : taken.lines) {
      if (!line.file.empty()) keep_picture(line, beside(line.file), recording);
      const auto stamp = recording.append(line.content, line.by, line.done_at);
      if (imported.first_line == 0) imported.first_line = stamp.line;
      bar.step();
    }
    recording.commit();
  }
  tell(imported, session);
  constexpr std::size_t kMostRemarks = 20;
  auto& remarks = taken.remarks;
  if (remarks.size() > kMostRemarks) {
    const auto more = remarks.size() - kMostRemarks;
    remarks.resize(kMostRemarks);
    remarks.push_back(fmt::format("and {} more remarks; \"boltwitness audit\" has them all", more));
  }
  session.remark(remarks);
}

}  // namespace

void declare_import(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<ImportOptions>();
  auto* command = app.add_subcommand(
      "import", "Take in a table from a spreadsheet (CSV), or a whole logbook into a new file");
  command
      ->add_option("FILE", options->file,
                   "What export wrote, or a table with such columns; - reads the input")
      ->required()
      ->option_text("FILE");
  command
      ->add_option("--as", options->as,
                   "The table, where its header does not tell: joints, wrenches, findings, "
                   "tightenings or photographs")
      ->option_text("TABLE");
  command->add_flag("--check", options->check, "Only try it; nothing is written");
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_import(*options, session);
    };
  });
}

int run_import(const ImportOptions& options, const terminal::Session& session) {
  const auto content = session.content_of(options.file);
  check_is_text(options.file, content);
  if (is_json(content)) {
    import_logbook(options, content, session);
  } else {
    import_table(options, content, session);
  }
  return failure::kDone;
}

}  // namespace cli
