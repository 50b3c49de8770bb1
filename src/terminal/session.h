#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "act/done.h"
#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "logbook/same_logbook.h"
#include "logbook/waiting.h"
#include "screen/large_text.h"
#include "screen/written_lines.h"
#include "terminal/context.h"
#include "words/text.h"

namespace terminal {

// The options that every command takes.
struct GlobalOptions {
  std::string log;
  std::string by;
  std::string at;
  bool json = false;
  bool no_color = false;
};

// One run of one command: the world, the global options, and what follows from the two.
class Session {
 public:
  Session(Context& context, const GlobalOptions& options);

  // JSON is UTF-8 whatever the locale, and holds nothing that acts on a terminal.
  [[nodiscard]] std::ostream& out() const { return options_.json ? documents() : context_.out; }
  // For a whole file in place of an answer (a page, a table, a copy), byte for byte: what writes
  // such a file leaves nothing in it that acts on a terminal.
  [[nodiscard]] std::ostream& documents() const {
    return context_.documents == nullptr ? context_.out : *context_.documents;
  }
  [[nodiscard]] bool json() const { return options_.json; }
  [[nodiscard]] words::Page page() const;
  // The same, no wider than a line that the eye still finds back from: for what is read on the job.
  [[nodiscard]] words::Page prose_page() const;

  // The start of this answer is out of sight once the prompt is back below it.
  [[nodiscard]] bool scrolls_away(const std::string& answer) const;

  // Prints an answer, and what it comes to once more where its start is out of sight then: the eye
  // looks just above the prompt.
  void answer_text(const std::string& answer, const std::string& in_short) const;

  // Prints a text to be read from its start: page by page where it is longer than the terminal.
  void read_text(const std::string& text) const;

  // Tells which lines have been written, "line 12: J06/1-14 out" each or
  // {"lines":[{"line","id","says"}]}, and what is remarkable about them. OutputLost, naming the
  // lines, where that cannot be shown.
  void tell(const act::Done& done) const;

  // A remark on stderr, wrapped: "note: ...".
  void remark(const std::string& text) const;
  void remark(const std::vector<std::string>& texts) const;

  // Where TZ names no zone that this machine has every time is UTC from here on, and it is said.
  void settle_zone() const;

  // Whether somebody watches stderr as it is written, and a line there in place of the one before.
  [[nodiscard]] bool errors_are_watched() const { return context_.errors_on_terminal; }

  // Whether what goes to this file is shown on the terminal: "" and "-" are the output.
  [[nodiscard]] bool is_shown(std::string_view file) const {
    return context_.terminal && (file.empty() || file == "-");
  }
  void overwrite(const std::string& line) const;

  // The logbook: --log, else BOLTWITNESS_LOG, else the one *.bolts file in this folder or the
  // nearest above that has one. UsageError where there is none or more than one. Where another
  // program holds it that is told, and waited for; opened for writing it is also told where this
  // machine's clock is behind its last line. LogbookError where it was opened before and is another
  // logbook now, or lacks what was seen in it (logbook/same_logbook.h).
  [[nodiscard]] logbook::Logbook open_to_read() const;
  [[nodiscard]] logbook::Logbook open_to_write() const;
  [[nodiscard]] logbook::Logbook open_to_try() const;

  // Whether opening it for writing would leave it as it is.
  [[nodiscard]] bool is_ready_to_write() const;

  // The same as the path alone, for what opens it otherwise, and how it then waits.
  [[nodiscard]] std::string logbook_path() const;
  [[nodiscard]] logbook::Waiting& waiting() const { return waiting_; }

  // From here on a held logbook is waited for as long as it takes: for a guide, which nobody wants
  // to begin again.
  void wait_for_good() const { waiting_.wait_for_good(); }

  // The file named for a logbook that is not there yet: --log, else BOLTWITNESS_LOG. UsageError
  // where neither names one.
  [[nodiscard]] std::string new_logbook_path() const;

  // The next bytes that come in at the input, at most so many; none at its end.
  [[nodiscard]] std::string input(std::size_t most) const { return context_.input(most); }

  // The same for the file of a photograph, which is never more than can be one: InputError where it
  // is, or is no file.
  [[nodiscard]] std::string picture_in(const std::string& file) const;

  // The path as it was given. LogbookError where it starts from the current folder and that is
  // gone, as when it was removed meanwhile.
  [[nodiscard]] std::string reachable(std::string path) const;

  // Who writes, when: --by, else BOLTWITNESS_BY, else the login name; --at, else now. UsageError
  // where nobody is named.
  [[nodiscard]] logbook::Writer writer() const;

  // The id of this machine.
  [[nodiscard]] std::string device() const { return context_.device(); }

  // Where programs keep what is a person's own (XDG base directories): XDG_DATA_HOME, else
  // .local/share in the home folder.
  [[nodiscard]] std::string data_folder() const;

  // The same for what a program remembers of its own: XDG_STATE_HOME, else .local/state in the home
  // folder; nothing where there is none.
  [[nodiscard]] std::optional<std::string> state_folder() const;

  // When it is done: --at, else now.
  [[nodiscard]] record::Moment done_at() const;

  // The key that the person at the input presses; see keyboard.h.
  [[nodiscard]] std::optional<char> key() const { return context_.key(); }
  [[nodiscard]] bool keyboard() const { return context_.keyboard; }

  // The answer to a prompt: a key of `keys` as soon as it is pressed on an empty line, or a line;
  // nothing where the input ends or the person stops. Without a terminal each answer is a line.
  [[nodiscard]] std::optional<std::string> answer(const std::string& prompt,
                                                  std::string_view keys) const;

  // Whether somebody watches the answer as it is written: text on a terminal, on the clock's own
  // time.
  [[nodiscard]] bool is_watched() const {
    return context_.terminal && !options_.json && options_.at.empty();
  }
  // What large figures are drawn with: nothing where the output is no terminal or TERM is dumb,
  // block elements where the locale's characters are UTF-8 (LC_ALL, else LC_CTYPE, else LANG).
  [[nodiscard]] screen::LargeLetters large_letters() const;

  [[nodiscard]] record::Moment now() const { return context_.now(); }
  void pause(std::chrono::milliseconds span) const { context_.pause(span); }

  // The calendar day on which the command is done.
  [[nodiscard]] record::Day day() const;

 private:
  void tell_held(const std::string& path) const;
  void remark_on_clock(const logbook::Logbook& logbook) const;

  Context& context_;
  const GlobalOptions& options_;
  mutable logbook::Waiting waiting_;
  mutable logbook::SameLogbook same_;
  mutable bool is_clock_told_ = false;
};

}  // namespace terminal
