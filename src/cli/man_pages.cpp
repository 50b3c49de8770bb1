#include "cli/man_pages.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <string_view>
#include <vector>

#include "cli/command_terms.h"
#include "manual/examples.h"
#include "manual/man_page.h"
#include "screen/typed_lines.h"
#include "terminal/whole_file.h"

namespace cli {
namespace {

constexpr std::string_view kSource = "boltwitness " BOLTWITNESS_VERSION;

// man(1) on a terminal of 80 sets 78 columns, of which it leaves seven on the left and ManPage two.
constexpr std::size_t kTypedWidth = 78 - 7 - 2;

// The page of the manual that stands on boltwitness(1).
constexpr std::string_view kProgramTopic = "scripts";

// What several pages of the manual make up.
struct Gathered {
  std::string_view name;
  int section;
  std::string_view about;
  std::vector<std::string_view> topics;
};

const std::vector<Gathered>& gathered() {
  static const std::vector<Gathered> all = {
      {"boltwitness-logbook", 5, "the logbook as a file", {"file", "copies", "hashes"}},
      {"boltwitness-method",
       7,
       "what a found torque tells, and what it does not",
       {"method", "found-torque", "evidence"}}};
  return all;
}

manual::ManPage begun(std::string_view name, int section, std::string_view about) {
  return {name, section, about, kSource,
          [](std::string_view lines) { return screen::typed_lines(lines, kTypedWidth); }};
}

std::string reference(std::string_view name, int section) {
  return fmt::format("**{}**({})", name, section);
}

// The page for man that holds a page of the manual; empty where none does.
std::string reference_to_topic(std::string_view topic) {
  if (topic == kProgramTopic) return reference("boltwitness", 1);
  for (const auto& each : gathered()) {
    if (std::ranges::find(each.topics, topic) != each.topics.end()) {
      return reference(each.name, each.section);
    }
  }
  return {};
}

// What to read next, from "found, help method, help order": pages for man, then those that only
// the program shows.
std::string see_also(std::string_view see) {
  constexpr std::string_view kHelp = "help ";
  constexpr std::string_view kBetween = ", ";
  std::vector<std::string> references;
  std::string shown;
  const auto refer = [&](const std::string& to) {
    if (std::ranges::find(references, to) == references.end()) references.push_back(to);
  };
  while (!see.empty()) {
    const auto each = see.substr(0, see.find(kBetween));
    see.remove_prefix(std::min(see.size(), each.size() + kBetween.size()));
    if (!each.starts_with(kHelp)) {
      refer(reference(fmt::format("boltwitness-{}", each), 1));
    } else if (const auto to = reference_to_topic(each.substr(kHelp.size())); !to.empty()) {
      refer(to);
    } else {
      shown += fmt::format("; *boltwitness {}*", each);
    }
  }
  refer(reference("boltwitness", 1));
  for (const auto& each : gathered()) refer(reference(each.name, each.section));
  return fmt::format("{}{}", fmt::join(references, kBetween), shown);
}

void write_page(const std::string& folder, std::string_view name, int section,
                manual::ManPage& page) {
  terminal::put_whole_file(std::filesystem::path(folder) / fmt::format("{}.{}", name, section),
                           page.take());
}

const manual::Page& page_named(std::string_view name) {
  return *std::ranges::find(manual::pages(), name, &manual::Page::name);
}

void write_terms(const CLI::App& command, manual::ManPage& page) {
  for (const auto& [title, options] : option_groups_of(command)) {
    if (!title.empty()) page.subheading(title);
    for (const auto* option : options) page.term(term_of(*option), option->get_description());
  }
}

void write_command(const CLI::App& command, const std::string& folder) {
  const auto name = "boltwitness-" + command.get_name();
  auto page = begun(name, 1, command.get_description());
  page.heading("SYNOPSIS").paragraph("**" + usage_of(command) + "**");
  page.heading("OPTIONS");
  write_terms(command, page);
  page.paragraph("*--log*, *--by*, *--at*, *--json* and *--no-color* are those of boltwitness(1).");
  const auto* shown = manual::examples_of(command.get_name());
  if (shown != nullptr) page.heading("EXAMPLES").typed(shown->typed);
  page.heading("SEE ALSO").paragraph(see_also(shown == nullptr ? "" : shown->see));
  write_page(folder, name, 1, page);
}

void write_program(const CLI::App& app, const std::string& folder) {
  auto page = begun("boltwitness", 1, "logbook for witness marks and torque");
  page.heading("SYNOPSIS").paragraph("**" + usage_of(app) + "**");
  page.heading("DESCRIPTION").paragraph(app.get_description()).paragraph(app.get_footer());
  page.heading("COMMANDS");
  for (const auto* command : app.get_subcommands({})) {
    page.term(command->get_name(), command->get_description());
  }
  page.heading("OPTIONS");
  write_terms(app, page);
  page.page(page_named(kProgramTopic), false);
  page.heading("SEE ALSO")
      .paragraph(
          "**boltwitness-logbook**(5), **boltwitness-method**(7), and *boltwitness help*, which "
          "lists the pages of the manual.");
  write_page(folder, "boltwitness", 1, page);
}

void write_gathered(const Gathered& what, const std::string& folder) {
  auto page = begun(what.name, what.section, what.about);
  for (const auto topic : what.topics) page.page(page_named(topic), true);
  page.heading("SEE ALSO").paragraph(reference("boltwitness", 1));
  write_page(folder, what.name, what.section, page);
}

}  // namespace

void write_man_pages(const CLI::App& app, const std::string& folder) {
  write_program(app, folder);
  for (const auto* command : app.get_subcommands({})) write_command(*command, folder);
  for (const auto& each : gathered()) write_gathered(each, folder);
}

}  // namespace cli
