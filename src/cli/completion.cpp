#include "cli/completion.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <vector>

#include "cli/command_terms.h"
#include "cli/help_topic.h"
#include "cli/logbook_words.h"
#include "terminal/session.h"

namespace cli {
namespace {

// What a word means, for a list beside it: its first sentence, in one line.
std::string in_brief(std::string_view text) {
  return std::string(text.substr(0, text.find_first_of(";:\n")));
}

std::string told(const MayBeTyped& each) {
  return each.means.empty() ? each.word + '\n'
                            : fmt::format("{}\t{}\n", each.word, in_brief(each.means));
}

std::string long_name(const CLI::Option& option) { return "--" + option.get_lnames().front(); }

bool takes_value(const CLI::Option& option) { return option.get_items_expected_max() > 0; }

bool takes_many(const CLI::Option& option) { return option.get_items_expected_max() > 1; }

// An option by what was typed, of the command or of all; nullptr for none.
const CLI::Option* option_named(const std::string& typed, const CLI::App& command,
                                const CLI::App& app) {
  const auto name = typed.substr(0, typed.find('='));
  if (const auto* found = command.get_option_no_throw(name)) return found;
  return app.get_option_no_throw(name);
}

// How far a line has come before the word that is being typed.
class TypedSoFar {
 public:
  TypedSoFar(const CLI::App& app, std::span<const std::string> words) : app_(app) {
    for (const auto& word : words) take(word);
  }

  [[nodiscard]] const CLI::App* command() const { return command_; }
  // The option whose value comes next; nullptr where a positional argument or an option does. One
  // that takes many may have had enough.
  [[nodiscard]] const CLI::Option* awaited() const { return awaited_; }
  [[nodiscard]] const CLI::Option* positional() const {
    if (command_ == nullptr) return nullptr;
    const auto all = options_of(*command_, true);
    if (all.empty()) return nullptr;
    const auto at = std::min(taken_, all.size() - 1);
    return at == taken_ || takes_many(*all[at]) ? all[at] : nullptr;
  }
  [[nodiscard]] bool was_given(const CLI::Option& option) const {
    return std::ranges::find(given_, &option) != given_.end();
  }

 private:
  void take(const std::string& word) {
    if (word.starts_with('-') && word.size() > 1) {
      awaited_ = nullptr;
      const auto* option = option_named(word, command_ == nullptr ? app_ : *command_, app_);
      if (option == nullptr) return;
      given_.push_back(option);
      if (takes_value(*option) && word.find('=') == std::string::npos) awaited_ = option;
      return;
    }
    if (awaited_ != nullptr) {
      if (!takes_many(*awaited_)) awaited_ = nullptr;
      return;
    }
    if (command_ == nullptr) {
      const auto named = app_.get_subcommands(
          [&](const CLI::App* command) { return command->get_name() == word; });
      if (!named.empty()) command_ = named.front();
    } else {
      ++taken_;
    }
  }

  const CLI::App& app_;
  const CLI::App* command_ = nullptr;
  const CLI::Option* awaited_ = nullptr;
  std::size_t taken_ = 0;  // positional arguments
  std::vector<const CLI::Option*> given_;
};

std::string commands(const CLI::App& app, std::string_view begun) {
  std::string text;
  for (const auto* command : app.get_subcommands({})) {
    if (command->get_name().starts_with(begun)) {
      text += told({command->get_name(), command->get_description()});
    }
  }
  return text;
}

std::string options(const CLI::App& app, const TypedSoFar& so_far, std::string_view begun) {
  std::string text;
  for (const auto* of : {so_far.command(), &app}) {
    if (of == nullptr) continue;
    for (const auto* option : options_of(*of, false)) {
      const auto name = long_name(*option);
      if (!name.starts_with(begun)) continue;
      if (so_far.was_given(*option) && !takes_many(*option)) continue;
      if (text.find(name + '\t') != std::string::npos) continue;  // --help, of both
      text += told({name, option->get_description()});
    }
  }
  return text;
}

std::string values(const CLI::Option& option, const TypedSoFar& so_far, std::string_view begun,
                   const terminal::Session& session) {
  const auto value = value_of(option);
  if (value == "FILE") return ":files\n";
  if (value == "FOLDER") return ":folders\n";
  const auto name = option.get_positional() ? option.get_name() : long_name(option);
  const auto command = so_far.command() == nullptr ? std::string() : so_far.command()->get_name();
  std::string text;
  for (const auto& each : words_for({command, name, value}, begun, session)) text += told(each);
  return text;
}

// Of "--wrench=TW", with what stands before the value in front of each; files and folders are found
// by the shell itself.
std::string values_assigned(const CLI::App& app, const TypedSoFar& so_far, std::string_view begun,
                            const terminal::Session& session) {
  const auto* command = so_far.command() == nullptr ? &app : so_far.command();
  const auto* option = option_named(std::string(begun), *command, app);
  if (option == nullptr || !takes_value(*option)) return {};
  const auto front = begun.substr(0, begun.find('=') + 1);
  const auto alone = values(*option, so_far, begun.substr(front.size()), session);
  if (alone.starts_with(':')) return alone;
  std::string text;
  for (std::size_t begin = 0; begin < alone.size();) {
    const auto end = alone.find('\n', begin) + 1;
    text += fmt::format("{}{}", front, std::string_view(alone).substr(begin, end - begin));
    begin = end;
  }
  return text;
}

}  // namespace

std::string completions(const CLI::App& app, std::span<const std::string> words,
                        const terminal::Session& session) {
  if (words.empty()) return {};
  const auto& begun = words.back();
  const TypedSoFar so_far(app, words.first(words.size() - 1));
  if (begun.starts_with("--") && begun.find('=') != std::string::npos) {
    return values_assigned(app, so_far, begun, session);
  }
  if (begun.starts_with('-')) return options(app, so_far, begun);
  if (so_far.awaited() != nullptr) return values(*so_far.awaited(), so_far, begun, session);
  if (so_far.command() == nullptr) return commands(app, begun);
  std::string text;
  if (const auto* positional = so_far.positional()) {
    text = values(*positional, so_far, begun, session);
  }
  // A page of the manual, or a command.
  if (so_far.command()->get_name() == kHelpCommand) text += commands(app, begun);
  return text;
}

}  // namespace cli
