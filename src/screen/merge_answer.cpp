#include "screen/merge_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "screen/audit_answer.h"
#include "screen/cut_list.h"
#include "screen/history_answer.h"
#include "screen/json_text.h"
#include "words/deviation_in_words.h"

namespace screen {
namespace {

constexpr std::size_t kMostMergedLines = 12;
constexpr std::size_t kMostOpened = 10;

std::string first_sentence(const MergeMade& made) {
  if (made.taken_over() > 0) {
    return fmt::format("{} {} {}", words::counted(made.taken_over(), "line"),
                       made.written ? "taken over from" : "would be taken over from", made.file);
  }
  auto text = fmt::format(
      "nothing to take over: {} of {} {} here already",
      made.lines_of_copy == 1 ? "the 1 line" : fmt::format("all {} lines", made.lines_of_copy),
      made.file, made.lines_of_copy == 1 ? "is" : "are");
  if (made.signatures > 0) {
    text += fmt::format("; {} {}", words::counted(made.signatures, "signature"),
                        made.written ? "taken over" : "would be");
  }
  return text;
}

std::string unreadable_sentence(const MergeMade& made) {
  const auto& first = made.unreadable.front();
  const bool is_one = made.unreadable.size() == 1;
  auto text = fmt::format("{} of them cannot be read; struck as {}, {} nowhere: {}line {} ({}): {}",
                          made.unreadable.size(), is_one ? "it is" : "they are",
                          is_one ? "it counts" : "they count", is_one ? "" : "the first is ",
                          first.line, first.kind, first.why);
  if (made.no_copy_holds) {
    text += fmt::format(
        ". With {} \"export\" of everything and \"fleet load\" refuse this logbook, which "
        "\"backup\" copies: {}",
        is_one ? "it" : "them", *made.no_copy_holds);
  }
  return text + '.';
}

std::string moved_sentence(const MergeMade& made) {
  return fmt::format(
      "{} of this logbook {} other numbers {}: line {} {} line {}. What an older page calls line "
      "{} is found with the hash at its foot: boltwitness verify --against HASH --line {}",
      words::counted(static_cast<std::size_t>(made.moved), "line"),
      made.moved == 1 ? (made.written ? "has" : "would have")
                      : (made.written ? "have" : "would have"),
      made.written ? "now" : "then", made.first_moved, made.written ? "is now" : "would be",
      made.first_moved_to, made.first_moved, made.first_moved);
}

// What contradicts and what holds up, each in full; checks and notes such as any line may bring are
// counted.
std::string opened_text(const MergeMade& made, const words::Page& page) {
  if (made.opened.empty()) return {};
  const auto is_to_tell = [](const auto* deviation) {
    return audit::is_contradiction(*deviation) || deviation->level == audit::Level::Hold;
  };
  auto told = made.opened;
  std::erase_if(told, [&](const auto* deviation) { return !is_to_tell(deviation); });
  if (told.empty()) {
    return words::wrapped(
        fmt::format("{} {} with them, none that holds anything up: boltwitness audit",
                    words::counted(made.opened.size(), "deviation"),
                    made.written ? "came" : "would come"),
        page.width, "", "  ");
  }
  const auto contradictions = static_cast<std::size_t>(
      std::ranges::count_if(told, [](const auto* each) { return audit::is_contradiction(*each); }));
  auto text = words::wrapped(
      fmt::format("{} {} with them{}", words::counted(made.opened.size(), "deviation"),
                  made.written ? "came" : "would come",
                  contradictions == 0
                      ? std::string(":")
                      : fmt::format(", {} in what was written on both sides:", contradictions)),
      page.width, "", "  ");
  const auto shown = shown_of(told.size(), kMostOpened);
  for (std::size_t i = 0; i < shown; ++i) {
    text += deviation_text(*made.audit, *told[i], false, page);
  }
  return text + and_more(made.opened.size() - shown,
                         made.written ? std::string("audit")
                                      : fmt::format("merge {} --check --json", made.file),
                         page);
}

}  // namespace

std::string merge_text(const MergeMade& made, const words::Page& page) {
  auto text = words::wrapped(words::strong(first_sentence(made), page), page.width, "", "  ");
  const auto shown = shown_of(made.lines.size(), kMostMergedLines);
  for (std::size_t i = 0; i < shown; ++i) {
    const auto& line = made.lines[i];
    text +=
        words::wrapped(fmt::format("line {}: {} ({})", line.stamp.line, line.says, line.stamp.by),
                       page.width, "  ", "    ");
  }
  text += and_more(made.lines.size() - shown,
                   made.written ? std::string("history --whole")
                                : fmt::format("merge {} --check --json", made.file),
                   page, "  ");
  if (!made.unreadable.empty()) {
    text += words::wrapped(unreadable_sentence(made), page.width, "", "  ");
  }
  if (made.moved > 0) text += words::wrapped(moved_sentence(made), page.width, "", "  ");
  if (made.taken_over() == 0 && made.is_ahead) {
    text += words::wrapped(
        "This logbook holds lines that the copy does not; to bring it up, merge this one there, or "
        "put a backup of this one in its place.",
        page.width, "", "  ");
  }
  if (!made.kept.empty()) {
    text += words::wrapped(
        fmt::format(
            "The logbook as it was is kept beside it as {}; to go back to that: help copies",
            std::filesystem::path(made.kept).filename().string()),
        page.width, "", "  ");
  }
  text += opened_text(made, page);
  if (made.taken_over() > 0) {
    text += words::wrapped(words::how_it_stands(*made.audit) + '.', page.width, "", "  ");
    if (!made.written) text += "Nothing was written.\n";
  }
  return text;
}

std::string merge_json(const MergeMade& made) {
  nlohmann::ordered_json json = {{"copy", made.file},
                                 {"written", made.written},
                                 {"lines", nlohmann::ordered_json::array()},
                                 {"unreadable", unreadable_rows_json(made.unreadable)},
                                 {"no_copy_holds", nullptr},
                                 {"lines_of_copy", made.lines_of_copy},
                                 {"ahead", made.is_ahead},
                                 {"signatures", made.signatures},
                                 {"moved", nullptr},
                                 {"kept", nullptr},
                                 {"deviations", nlohmann::ordered_json::array()},
                                 {"ready", made.audit->ready()},
                                 {"in_order", made.audit->in_order()}};
  for (const auto& line : made.lines) {
    json["lines"].push_back({{"line", line.stamp.line},
                             {"id", line.stamp.id},
                             {"by", line.stamp.by},
                             {"says", line.says}});
  }
  if (made.no_copy_holds) json["no_copy_holds"] = *made.no_copy_holds;
  if (made.moved > 0) {
    json["moved"] = {
        {"lines", made.moved}, {"from", made.first_moved}, {"to", made.first_moved_to}};
  }
  if (!made.kept.empty()) json["kept"] = made.kept;
  for (const auto* deviation : made.opened) {
    json["deviations"].push_back(deviation_json(*made.audit, *deviation));
  }
  return json_text(kMergeFormat, std::move(json));
}

}  // namespace screen
