#include "cli/page_file.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <system_error>

#include "failure/failure.h"
#include "logbook/beside_file.h"
#include "logbook/logbook.h"
#include "logbook/plain_file.h"
#include "screen/written_file.h"
#include "terminal/session.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

// Where a page says what it is.
constexpr std::size_t kMostOfBegin = 128;

void check_replaceable(const fs::path& file, bool replace) {
  logbook::refuse_name_of_logbook(file);
  std::error_code problem;
  const auto status = fs::status(file, problem);
  if (!fs::exists(status)) return;
  if (!fs::is_regular_file(status)) {
    throw failure::Refusal(
        fmt::format("{} is no file; name one for --out, or leave --out away to have the "
                    "page on stdout",
                    file.string()));
  }
  if (logbook::is_database(file)) {
    throw failure::Refusal(
        fmt::format("{} is a logbook or another database; choose another name", file.string()));
  }
  if (!replace && !paper::is_our_page(logbook::begin_of_plain_file(file, kMostOfBegin))) {
    throw failure::Refusal(
        fmt::format("{} is there and no page of this program; choose another name, or "
                    "add --replace-file",
                    file.string()));
  }
}

}  // namespace

void declare_page_options(CLI::App& command, PageOptions& options) {
  command
      .add_option("--out", options.out, "Write the page to this file; else, and for -, to stdout")
      ->option_text("FILE")
      ->group(kPageGroup);
  command.add_option("--page", options.size, "Paper: a4 (the default) or letter")
      ->option_text("SIZE")
      ->group(kPageGroup);
  command
      .add_flag("--replace-file", options.replace_file,
                "Replace the file even where it is no page of this program")
      ->group(kPageGroup);
}

bool names_page(const PageOptions& options) {
  return !options.out.empty() || !options.size.empty() || options.replace_file;
}

paper::PaperSize paper_size_of(const PageOptions& options) {
  return options.size.empty() ? paper::PaperSize::A4 : paper::read_paper_size(options.size);
}

paper::Imprint imprint_for(const PageOptions& options, const record::LogbookStart& start,
                           const logbook::Logbook& logbook, const terminal::Session& session) {
  return {start.machine, session.done_at(), logbook.last_line(), logbook.end_hashes(),
          paper_size_of(options)};
}

void give_out(const std::string& page, const PageOptions& options,
              const terminal::Session& session) {
  give_out([&](const auto& take) { take(page); }, options, session);
}

void give_out(const terminal::Writing& page, const PageOptions& options,
              const terminal::Session& session) {
  if (options.out.empty() || options.out == "-") {
    if (session.json()) {
      throw failure::UsageError(
          "a page is HTML, not JSON; leave --json away, or name a file with --out");
    }
    page([&](std::string_view piece) { session.documents() << piece; });
    return;
  }
  // A link is followed, so that the file behind it is the one that is replaced.
  std::error_code problem;
  fs::path file = session.reachable(options.out);
  if (fs::is_symlink(file, problem)) file = fs::canonical(file, problem);
  if (problem) file = options.out;
  check_replaceable(file, options.replace_file);
  terminal::put_whole_file(file, page);
  session.out() << (session.json() ? screen::written_file_json(options.out)
                                   : screen::written_file_text(options.out));
}

}  // namespace cli
