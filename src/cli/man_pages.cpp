#include "cli/man_pages.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <initializer_list>
#include <string_view>

#include "cli/command_terms.h"
#include "manual/examples.h"
#include "manual/man_page.h"
#include "terminal/whole_file.h"

namespace cli {
namespace {

constexpr std::string_view kSource = "boltwitness " BOLTWITNESS_VERSION;

void write_page(const std::string& folder, std::string_view name, int section,
                manual::ManPage& page) {
  terminal::put_whole_file(std::filesystem::path(folder) / fmt::format("{}.{}", name, section),
                           page.take());
}

const manual::Page& page_named(std::string_view name) {
  return *std::ranges::find(manual::pages(), name, &manual::Page::name);
}

void write_terms(const CLI::App& command, manual::ManPage& page) {
  for (const bool positional : {true, false}) {
    for (const auto* option : options_of(command, positional)) {
      page.term(term_of(*option), option->get_description());
    }
  }
}

void write_command(const CLI::App& command, const std::string& folder) {
  const auto name = "boltwitness-" + command.get_name();
  manual::ManPage page(name, 1, command.get_description(), kSource);
  page.heading("SYNOPSIS").paragraph("**" + usage_of(command) + "**");
  page.heading("OPTIONS");
  write_terms(command, page);
  page.paragraph("*--log*, *--by*, *--at*, *--json* and *--no-color* are those of boltwitness(1).");
  std::string see = "boltwitness(1), boltwitness-logbook(5), boltwitness-method(7)";
  if (const auto* shown = manual::examples_of(command.get_name())) {
    page.heading("EXAMPLES").typed(shown->typed);
    if (!shown->see.empty()) see = shown->see + "; " + see;
  }
  page.heading("SEE ALSO").paragraph(see);
  write_page(folder, name, 1, page);
}

void write_program(const CLI::App& app, const std::string& folder) {
  manual::ManPage page("boltwitness", 1, "logbook for witness marks and torque", kSource);
  page.heading("SYNOPSIS").paragraph("**" + usage_of(app) + "**");
  page.heading("DESCRIPTION").paragraph(app.get_description()).paragraph(app.get_footer());
  page.heading("COMMANDS");
  for (const auto* command : app.get_subcommands({})) {
    page.term(command->get_name(), command->get_description());
  }
  page.heading("OPTIONS");
  write_terms(app, page);
  page.page(page_named("scripts"), false);
  page.heading("SEE ALSO")
      .paragraph(
          "boltwitness-logbook(5), boltwitness-method(7), and *boltwitness help*, which "
          "lists the pages of the manual.");
  write_page(folder, "boltwitness", 1, page);
}

// Several pages of the manual as one.
void write_topics(std::string_view name, int section, std::string_view about,
                  std::initializer_list<std::string_view> topics, const std::string& folder) {
  manual::ManPage page(name, section, about, kSource);
  for (const auto topic : topics) page.page(page_named(topic), true);
  page.heading("SEE ALSO").paragraph("boltwitness(1)");
  write_page(folder, name, section, page);
}

}  // namespace

void write_man_pages(const CLI::App& app, const std::string& folder) {
  write_program(app, folder);
  for (const auto* command : app.get_subcommands({})) write_command(*command, folder);
  write_topics("boltwitness-logbook", 5, "the logbook as a file", {"file", "copies", "hashes"},
               folder);
  write_topics("boltwitness-method", 7, "what a found torque tells, and what it does not",
               {"method", "found-torque", "evidence"}, folder);
}

}  // namespace cli
