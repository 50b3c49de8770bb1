#include "cli/photo.h"

#include <CLI/CLI.hpp>

#include "act/lookup.h"
#include "cli/correction_options.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "screen/photograph_answer.h"
#include "screen/written_file.h"
#include "terminal/new_file.h"
#include "terminal/session.h"

namespace cli {
namespace {

using screen::ShownPhotograph;

int give_photograph_out(const PhotoOptions& options, const terminal::Session& session) {
  if (!options.file.empty() || !options.words.note.empty()) {
    throw failure::UsageError("--to gives one out and takes its line alone: photo 14 --to FILE");
  }
  const auto line = act::read_line_number(options.words.where);
  const auto logbook = session.open_to_read();
  const auto photograph = act::photograph_of_line(logbook, line);
  if (options.to == "-") {
    if (session.json() || session.is_shown(options.to)) {
      throw failure::UsageError(
          "--to - gives the bytes of the picture for another program or a file; name a file to "
          "look "
          "at it");
    }
    session.documents() << logbook.bytes_of(photograph);
    return failure::kDone;
  }
  terminal::write_new_file(session.reachable(options.to), logbook.bytes_of(photograph));
  session.out() << (session.json() ? screen::written_file_json(options.to)
                                   : screen::written_file_text(options.to));
  return failure::kDone;
}

int list_photographs(const std::string& where, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const auto all = act::photographs_of(logbook, where, session.now());
  std::vector<const ShownPhotograph*> asked;
  for (const auto& entry : all) asked.push_back(&entry);
  session.out() << (session.json() ? screen::photographs_json(asked)
                                   : screen::photographs_text(asked, session.prose_page()));
  return failure::kDone;
}

}  // namespace

void declare_photo(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<PhotoOptions>();
  command.add_option("JOINT[/POSITIONS]", options->words.where,
                     "What it shows: a joint or positions, machine, or the id of a deviation; with "
                     "--to the number of its line");
  command.add_option("FILE", options->file,
                     "A JPEG, PNG or WebP of 8 MiB at most; - reads the input");
  command.add_option("--note", options->words.note, "What is to be seen")->option_text("TEXT");
  command
      .add_option("--to", options->to,
                  "Give it out again, to a new file; - writes it to the output")
      ->option_text("FILE");
  declare_correction(command, options->words.correction);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_photo(*options, session);
    };
  });
}

int run_photo(const PhotoOptions& options, const terminal::Session& session) {
  if (!options.to.empty()) return give_photograph_out(options, session);
  const auto& words = options.words;
  if (options.file.empty() && words.correction.replaced_line.empty()) {
    if (words.note.empty()) return list_photographs(words.where, session);
    throw failure::UsageError("name the file: photo WHERE FILE --note TEXT");
  }
  std::optional<std::string> bytes;
  if (!options.file.empty()) bytes = session.picture_in(options.file);
  auto logbook = session.open_to_write();
  session.tell(act::record_photograph(logbook, session.writer(), words, bytes));
  return failure::kDone;
}

}  // namespace cli
