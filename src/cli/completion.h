#pragma once

#include <span>
#include <string>

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

// The first word by which a shell asks what may be typed: "boltwitness complete WORD ...", all
// words before the cursor, the last of them begun or empty. It is in no help: nobody types it.
inline constexpr const char* kCompleteCommand = "complete";

// What may take the place of the last of the words, a line each with what it means behind a tab:
// commands and options as they are declared, and words of the logbook (logbook_words.h). The line
// ":files" or ":folders" asks the shell for its own. Nothing where nothing is known.
[[nodiscard]] std::string completions(const CLI::App& app, std::span<const std::string> words,
                                      const terminal::Session& session);

}  // namespace cli
