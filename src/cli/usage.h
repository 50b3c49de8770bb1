#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace cli {

// UsageError where an option or a positional argument was given an empty value: most often a shell
// variable that is not set, which must neither drop an option nor choose another logbook. It works
// on what has been parsed so far, also after parsing has failed.
void refuse_empty_values(const CLI::App& app);

// The same for the spelling "--log=", which the parser would give the next word as its value.
void refuse_empty_assignments(const std::vector<std::string>& arguments);

// What is wrong with a command line that could not be parsed, with the nearest command or option
// where one is near. What is not known comes before what is missing: it may be that, misspelt.
[[nodiscard]] std::string usage_message(const CLI::App& app, const CLI::ParseError& error,
                                        const std::vector<std::string>& arguments);

// "; a joint or a position is shown by "boltwitness show J08"" for what reads like the code or the
// address of one; else empty.
[[nodiscard]] std::string shown_by(const std::string& word);

}  // namespace cli
