#include "cli/import.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <optional>

#include "act/photograph_entry.h"
#include "cli/pending.h"
#include "exchange/csv.h"
#include "exchange/json_look.h"
#include "exchange/logbook_json.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "logbook/restore.h"
#include "quantity/number_text.h"
#include "screen/import_answer.h"
#include "tables/table_intake.h"
#include "terminal/file_pieces.h"
#include "terminal/progress_bar.h"
#include "terminal/progress_bars.h"
#include "terminal/session.h"

namespace cli {
namespace {

// A byte order mark, and what may stand before the first word of a file.
constexpr const char* kBlank = "\xEF\xBB\xBF \t\r\n";

// JSON begins with a brace or a bracket; no header of a table does.
bool is_json(std::string_view content) {
  const auto first = content.find_first_not_of(kBlank);
  return first != std::string_view::npos && (content[first] == '{' || content[first] == '[');
}

// Looks through a text as it comes in. InputError where a NUL stands in it, as in a file of bytes.
class NulWatch {
 public:
  explicit NulWatch(std::string file) : file_(std::move(file)) {}

  void look_at(std::string_view piece) {
    const auto at = piece.find('\0');
    const auto before = piece.substr(0, at);
    const auto line_end = before.rfind('\n');
    line_ += std::ranges::count(before, '\n');
    in_line_ = line_end == std::string_view::npos ? in_line_ + before.size()
                                                  : before.size() - line_end - 1;
    if (at == std::string_view::npos) return;
    throw failure::InputError(fmt::format(
        "{}: line {}: byte {} of it is a NUL, which stands in no text; expected a table or the "
        "copy of a logbook, in UTF-8",
        file_, line_, in_line_ + 1));
  }

 private:
  std::string file_;
  std::ptrdiff_t line_ = 1;
  std::size_t in_line_ = 0;  // bytes of the line so far
};

// InputError for what is neither table nor copy of a logbook, whatever would be read in it.
void check_is_text(std::string_view file, std::string_view content) {
  constexpr const char* kExpected =
      "expected a table with the names of its columns in the first line, or the copy of a logbook";
  if (content.find_first_not_of(kBlank) == std::string_view::npos) {
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
  terminal::ProgressBars bars(session);
  // Either form has one line of text for each.
  bars.begin("reading the copy", static_cast<std::size_t>(std::ranges::count(content, '\n')));
  const exchange::LogbookJsonReader copy(content, [&] { bars.step(); });
  const auto lines = static_cast<std::size_t>(copy.size().lines);
  std::int64_t first = 0;
  bars.begin("lines", lines);
  const auto restore = options.check ? logbook::check_restorable : logbook::restore_logbook;
  restore(path, copy, [&](const record::StoredLine& line) {
    if (first == 0) first = line.line;
    bars.step();
  });
  bars.end();
  tell({std::string(screen::kWholeLogbook), lines, lines, first, !options.check}, session);
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

// The rows of a table, read from the beginning of its file. InputError where every line ends with
// CR alone, so that the whole is one line to the reader.
class TableFile {
 public:
  TableFile(const std::string& file, terminal::FilePieces& pieces)
      : file_(file), pieces_(pieces), nul_(file), reader_([this] { return next_piece(); }) {
    pieces_.begin_again();
    if (const auto* header = reader_.next()) header_ = *header;
    of_header_ = reader_.faults();
    check_line_ends();
  }

  // Nothing in an empty file.
  [[nodiscard]] const exchange::CsvRow* header() const {
    return header_.empty() ? nullptr : &header_;
  }
  [[nodiscard]] const std::vector<exchange::CsvFault>& faults_of_header() const {
    return of_header_;
  }
  [[nodiscard]] exchange::CsvReader& rows() { return reader_; }

 private:
  std::string_view next_piece() {
    const auto piece = pieces_.next();
    nul_.look_at(piece);
    has_line_feed_ = has_line_feed_ || piece.find('\n') != std::string_view::npos;
    if (const auto end = piece.find('\r'); !first_return_ && end != std::string_view::npos) {
      first_return_ = size_ + end;
    }
    size_ += piece.size();
    return piece;
  }

  void check_line_ends() const {
    if (has_line_feed_ || of_header_.empty()) return;
    if (!first_return_ || *first_return_ + 1 == size_) return;
    throw failure::InputError(fmt::format(
        "{}: line 1, column {}: the lines of the whole file end with CR alone; expected LF or CR "
        "LF; save it again from the spreadsheet as CSV in UTF-8",
        file_, of_header_.front().column));
  }

  const std::string& file_;
  terminal::FilePieces& pieces_;
  NulWatch nul_;
  bool has_line_feed_ = false;
  std::optional<std::size_t> first_return_;
  std::size_t size_ = 0;  // of the pieces so far
  exchange::CsvReader reader_;
  exchange::CsvRow header_;
  std::vector<exchange::CsvFault> of_header_;
};

// At least as many rows as the file has; asked only where somebody sees how far it is.
std::size_t most_rows(terminal::FilePieces& pieces, const terminal::Session& session) {
  if (!session.errors_are_watched()) return 1;
  pieces.begin_again();
  std::size_t rows = 1;
  for (auto piece = pieces.next(); !piece.empty(); piece = pieces.next()) {
    rows += static_cast<std::size_t>(std::ranges::count(piece, '\n'));
  }
  return rows;
}

// One way through all rows: each is checked, and its lines are written where something records
// them. InputError where a row cannot be taken; all are told.
struct Pass {
  screen::Imported imported;
  std::vector<std::string> remarks;
};
Pass take_rows(const ImportOptions& options, terminal::FilePieces& pieces,
               const terminal::Session& session, record::Job job, const logbook::Writer& writer,
               logbook::Recording* recording) {
  const auto most = most_rows(pieces, session);
  TableFile file(options.file, pieces);
  if (file.header() == nullptr) {
    throw failure::UsageError("there is nothing in the file, not even a header");
  }
  const auto& table = tables::table_of(file.header(), options.as);
  const tables::FileBeside beside = [&](const std::string& name) {
    return file_beside(options, name, session);
  };
  tables::TableIntake intake(table, *file.header(), file.faults_of_header(), file.rows().decimals(),
                             std::move(job), writer, beside);
  Pass pass{{std::string(table.name), 0, 0, 0, recording != nullptr}, {}};
  terminal::ProgressBar bar(session, std::string(table.name), most);
  while (const auto* row = intake.is_worth_going_on() ? file.rows().next() : nullptr) {
    const auto lines = intake.take(*row, file.rows().faults());
    ++pass.imported.rows;
    pass.imported.lines += lines.size();
    // Behind the first fault nothing of it is going to be kept.
    if (recording != nullptr && intake.faults() == 0) {
      for (const auto& line : lines) {
        if (!line.file.empty()) keep_picture(line, beside(line.file), *recording);
        const auto stamp = recording->append(line.content, line.by, line.done_at);
        if (pass.imported.first_line == 0) pass.imported.first_line = stamp.line;
      }
    }
    bar.step();
  }
  if (intake.faults() > 0) throw failure::InputError(intake.faults_text(options.file));
  pass.remarks = intake.remarks();
  return pass;
}

void import_table(const ImportOptions& options, terminal::FilePieces& pieces,
                  const terminal::Session& session) {
  (void)tables::table_of(TableFile(options.file, pieces).header(), options.as);
  const auto writer = session.writer();
  std::optional<Pass> pass;
  // Checked before the logbook is opened for writing where that would change it, so that it is not
  // even brought up to date for a file that cannot be taken.
  if (options.check || !session.is_ready_to_write()) {
    pass = take_rows(options, pieces, session, session.open_to_read().job(), writer, nullptr);
  }
  if (!options.check) {
    auto logbook = session.open_to_write();
    logbook::Recording recording(logbook, writer);
    // Nobody else writes from here on; somebody may have until now.
    pass = take_rows(options, pieces, session, logbook.job(), writer, &recording);
    recording.commit();
  }
  tell(pass->imported, session);
  constexpr std::size_t kMostRemarks = 20;
  auto& remarks = pass->remarks;
  if (remarks.size() > kMostRemarks) {
    const auto more = remarks.size() - kMostRemarks;
    remarks.resize(kMostRemarks);
    remarks.push_back(fmt::format("and {} more remarks; \"boltwitness audit\" has them all", more));
  }
  session.remark(remarks);
}

}  // namespace

void declare_import(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<ImportOptions>();
  command
      .add_option("FILE", options->file,
                  "What export wrote, or a table with such columns; - reads the input")
      ->required();
  command
      .add_option("--as", options->as,
                  "The table, where its header does not tell: joints, wrenches, findings, "
                  "tightenings or photographs")
      ->option_text("TABLE");
  command.add_flag("--check", options->check, "Only try it; nothing is written");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_import(*options, session);
    };
  });
}

int run_import(const ImportOptions& options, const terminal::Session& session) {
  terminal::FilePieces pieces(session, options.file);
  auto beginning = pieces.next();
  while (!beginning.empty() && beginning.find_first_not_of(kBlank) == std::string_view::npos) {
    beginning = pieces.next();
  }
  check_is_text(options.file, beginning);
  if (is_json(beginning)) {
    exchange::JsonLook json;
    NulWatch nul(options.file);
    const auto content = pieces.whole([&](std::string_view piece) {
      nul.look_at(piece);
      json.look(piece);
    });
    import_logbook(options, content, session);
  } else {
    import_table(options, pieces, session);
  }
  return failure::kDone;
}

}  // namespace cli
