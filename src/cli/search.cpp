#include "cli/search.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>

#include "cli/exit_code.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "logbook/text_index.h"
#include "quantity/input_error.h"
#include "quantity/number_text.h"
#include "report/line_text.h"
#include "report/search_report.h"

namespace cli {
namespace {

std::vector<report::FoundLine> lines_with(const std::string& words,
                                          const std::vector<record::HistoryLine>& lines) {
  logbook::TextIndex index;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto& line = lines[i];
    index.add(static_cast<std::int64_t>(i),
              {report::line_text(line.content), report::typed_besides(line.content), line.stamp.by,
               line.struck_why});
  }
  std::vector<report::FoundLine> found;
  for (auto& hit : index.find(words)) {
    found.push_back(
        {&lines[static_cast<std::size_t>(hit.number)], std::move(hit.snippet), hit.in_says});
  }
  return found;
}

}  // namespace

void declare_search(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<SearchOptions>();
  auto* command =
      app.add_subcommand("search", "Every line that holds these words, struck ones shown struck");
  command
      ->add_option("WORDS", options->words,
                   "In any case, with or without accents; the last may be cut short")
      ->required()
      ->option_text("WORD ...");
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_search(*options, session); };
  });
}

int run_search(const SearchOptions& options, const Session& session) {
  const auto words = fmt::format("{}", fmt::join(options.words, " "));
  if (quantity::trimmed(words).empty()) {
    throw quantity::InputError("nothing to look for; expected a word or more");
  }
  const auto lines = session.open_to_read().history();
  const auto found = lines_with(words, lines);
  if (session.json()) {
    session.out() << report::search_json(found);
  } else {
    session.out() << report::search_text(found, session.page());
  }
  if (found.empty()) {
    session.remark(fmt::format("no line holds {}; fewer words, or only their beginnings, find more",
                               quantity::quoted(words)));
  }
  return found.empty() ? kNotInOrder : kDone;
}

}  // namespace cli
