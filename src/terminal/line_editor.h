#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct editline;
struct history;

namespace terminal {

// What a person answers at a terminal, with the keys that edit a line and the lines before it at
// hand (libedit). The terminal is as it was whenever no answer is awaited, and after a signal.
class LineEditor {
 public:
  LineEditor();

  // Shows the prompt and waits. A key of `keys`, in either case, answers at once where nothing else
  // is typed yet; anything else, a blank included, begins a line that Enter ends. Enter that
  // belongs to the key that answered before is no answer: typed before this prompt was there to be
  // read, or sooner behind the key than anybody reads it. Nothing at the end of the input and where
  // Ctrl-C or Ctrl-D is pressed.
  [[nodiscard]] std::optional<std::string> answer(const std::string& prompt, std::string_view keys);

 private:
  static LineEditor& of(editline* line);
  static char* prompt_of(editline* line);
  static unsigned char take_key(editline* line, int key);
  static unsigned char stop(editline* line, int key);

  std::string prompt_;
  std::string_view keys_;
  std::optional<std::chrono::steady_clock::time_point> key_answered_;  // by the answer before
  std::unique_ptr<editline, void (*)(editline*)> line_;
  std::unique_ptr<history, void (*)(history*)> history_;
};

}  // namespace terminal
