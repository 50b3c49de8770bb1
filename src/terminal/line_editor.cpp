#include "terminal/line_editor.h"

#include <fmt/format.h>
#include <histedit.h>
#include <poll.h>
#include <unistd.h>

#include <clocale>
#include <cstdio>
#include <utility>

#include "quantity/ascii.h"

namespace terminal {
namespace {

constexpr int kLinesKept = 200;
// Pressed out of habit, Enter follows its key after 0.1 to 0.25 s; to read what is asked then and
// to answer it takes longer (own choice, no source). Taken for an answer it would record what
// nobody said, and one left out is pressed again: so rather long than short.
constexpr std::chrono::milliseconds kBelongsToKey{300};

// Something was typed that nobody has read yet.
bool is_typed_ahead() {
  pollfd input{STDIN_FILENO, POLLIN, 0};
  return ::poll(&input, 1, 0) == 1 && (input.revents & POLLIN) != 0;
}

// libedit asks the locale what text is; here it is UTF-8 whatever the locale says.
editline* new_line() {
  std::setlocale(LC_CTYPE, "C.UTF-8");
  return ::el_init("boltwitness", stdin, stdout, stderr);
}

}  // namespace

LineEditor::LineEditor() : line_(new_line(), ::el_end), history_(::history_init(), ::history_end) {
  HistEvent event;
  ::history(history_.get(), &event, H_SETSIZE, kLinesKept);
  auto* line = line_.get();
  ::el_set(line, EL_CLIENTDATA, this);
  ::el_set(line, EL_PROMPT, &LineEditor::prompt_of);
  ::el_set(line, EL_HIST, ::history, history_.get());
  ::el_set(line, EL_EDITOR, "emacs");
  ::el_set(line, EL_SIGNAL, 1);
  ::el_set(line, EL_ADDFN, "answer", "answer at once", &LineEditor::take_key);
  ::el_set(line, EL_ADDFN, "stop", "stop here", &LineEditor::stop);
  for (char key = 'a'; key <= 'z'; ++key) {
    for (const char each : {key, static_cast<char>(key - 'a' + 'A')}) {
      const char name[] = {each, '\0'};
      ::el_set(line, EL_BIND, name, "answer", nullptr);
    }
  }
  for (char sign = '!'; sign <= '~'; ++sign) {
    if (quantity::is_letter(sign) || quantity::is_digit(sign)) continue;
    // As its number, since some signs mean something in the name of a key.
    ::el_set(line, EL_BIND, fmt::format("\\{:03o}", sign).c_str(), "answer", nullptr);
  }
  for (const auto* sign : {"°", "·"}) ::el_set(line, EL_BIND, sign, "ed-insert", nullptr);
  // Ctrl-C is a key that stops as all other ends do, and no signal.
  ::el_set(line, EL_SETTY, "-d", "-isig", nullptr);
  ::el_set(line, EL_BIND, "^C", "stop", nullptr);
}

std::optional<std::string> LineEditor::answer(const std::string& prompt, std::string_view keys) {
  prompt_ = prompt;
  keys_ = keys;
  while (true) {
    const auto before = std::exchange(key_answered_, std::nullopt);
    const bool was_typed_ahead = before && is_typed_ahead();
    int length = 0;
    const char* typed = ::el_gets(line_.get(), &length);
    if (typed == nullptr || length <= 0) {
      std::fputc('\n', stdout);
      std::fflush(stdout);
      return std::nullopt;
    }
    std::string answer(typed, static_cast<std::size_t>(length));
    while (answer.ends_with('\n') || answer.ends_with('\r')) answer.pop_back();
    if (answer.empty() && before &&
        (was_typed_ahead || std::chrono::steady_clock::now() - *before < kBelongsToKey)) {
      continue;
    }
    if (answer.size() > 1) {
      HistEvent event;
      ::history(history_.get(), &event, H_ENTER, answer.c_str());
    }
    return answer;
  }
}

LineEditor& LineEditor::of(editline* line) {
  void* self = nullptr;
  ::el_get(line, EL_CLIENTDATA, &self);
  return *static_cast<LineEditor*>(self);
}

char* LineEditor::prompt_of(editline* line) { return of(line).prompt_.data(); }

unsigned char LineEditor::take_key(editline* line, int key) {
  const auto* typed = ::el_line(line);
  const bool is_first = typed->lastchar == typed->buffer;
  const char name[] = {static_cast<char>(key), '\0'};
  if (::el_insertstr(line, name) != 0) return CC_ERROR;
  if (!is_first || of(line).keys_.find(quantity::lower(name[0])) == std::string_view::npos) {
    return CC_REFRESH;
  }
  // A line that ends by itself is no longer drawn by the editor.
  of(line).key_answered_ = std::chrono::steady_clock::now();
  std::fprintf(stdout, "%s\n", name);
  std::fflush(stdout);
  return CC_NEWLINE;
}

unsigned char LineEditor::stop(editline*, int) { return CC_EOF; }

}  // namespace terminal
