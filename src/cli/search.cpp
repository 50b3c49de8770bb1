#include "cli/search.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>

#include "cli/json_lines_option.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "logbook/text_index.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "screen/search_answer.h"
#include "terminal/session.h"
#include "words/line_text.h"

namespace cli {
namespace {

std::string why_struck(const record::HistoryLine& line) {
  auto text = line.struck_why;
  for (const auto& again : line.struck_again) text += "; " + again.why;
  return text;
}

// Adds those of the lines that hold the words.
void add_lines_with(const std::string& words, std::vector<record::HistoryLine> lines,
                    std::vector<screen::FoundLine>& found) {
  logbook::TextIndex index;
  const logbook::TextIndex::Sieve sieve(words);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto& line = lines[i];
    const auto says = words::line_text(line.content);
    const auto beside = words::typed_besides(line.content);
    const auto struck = why_struck(line);
    const logbook::TextIndex::Text text{says, beside, line.stamp.by, struck};
    if (sieve.may_hold_all(text)) index.add(static_cast<std::int64_t>(i), text);
  }
  for (auto& hit : index.find(words)) {
    found.push_back({std::move(lines[static_cast<std::size_t>(hit.number)]), std::move(hit.passage),
                     hit.in_says});
  }
}

// What shows all about the joint or the positions that the words name; nothing where they name
// none of this logbook.
std::vector<std::string> what_to_see(const std::string& words, const logbook::Logbook& logbook) {
  record::Address address;
  try {
    address = record::read_address(quantity::trimmed(words));
  } catch (const failure::InputError&) {
    return {};
  }
  const auto joint = logbook.joint(address.joint);
  if (!joint) return {};
  const auto& code = joint->content.code;
  const auto& positions = address.positions;
  if (positions.empty()) return {"history " + code, "show " + code};
  if (positions.back() > joint->content.count) return {};
  const auto where = record::write_address(code, positions);
  return {"history " + where, "show " + (positions.size() == 1 ? where : code)};
}

}  // namespace

void declare_search(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<SearchOptions>();
  command
      .add_option("WORD", options->words,
                  "In any case, with or without accents; the last may be cut short")
      ->required()
      ->option_text("WORD ...");
  command.add_flag("--whole", options->whole, "With no list cut");
  declare_json_lines(command, options->json_lines);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_search(*options, session);
    };
  });
}

int run_search(const SearchOptions& options, const terminal::Session& session) {
  const auto words = fmt::format("{}", fmt::join(options.words, " "));
  if (quantity::trimmed(words).empty()) {
    throw failure::InputError("nothing to look for; expected a word or more");
  }
  const auto logbook = session.open_to_read();
  std::vector<screen::FoundLine> found;
  logbook.history_in_parts([&](std::vector<record::HistoryLine> part) {
    add_lines_with(words, std::move(part), found);
  });
  const auto see = what_to_see(words, logbook);
  const auto whole =
      options.whole ? std::string() : fmt::format("search {} --whole", quantity::quoted(words));
  if (options.json_lines) {
    session.documents() << screen::search_json_lines(found);
  } else {
    session.out() << (session.json()
                          ? screen::search_json(found, see)
                          : screen::search_text(found, see, whole, session.prose_page()));
  }
  if (found.empty()) {
    session.remark(fmt::format("no line holds {}; fewer words, or only their beginnings, find more",
                               quantity::quoted(words)));
  }
  return found.empty() ? failure::kNotInOrder : failure::kDone;
}

}  // namespace cli
