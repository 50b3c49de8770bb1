#pragma once

#include <chrono>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <optional>
#include <ostream>
#include <string>

#include "logbook/waiting.h"
#include "record/moment.h"

namespace terminal {

// The world a command runs in, so that tests can run whole commands in their own.
struct Context {
  std::ostream& out;  // the answer, nothing else
  std::ostream& err;  // everything else
  std::function<record::Moment()> now;
  std::function<std::optional<std::string>(const char*)> environment;
  std::function<std::string()> device;  // id of this machine, asked for when something is written
  std::string login;                    // may be empty
  std::filesystem::path folder;         // where a logbook is looked for
  std::size_t width = 80;               // columns of the output
  bool terminal = false;                // the output is one
  std::function<std::optional<char>()> key = {};              // keyboard.h: what is typed meanwhile
  std::function<std::optional<std::string>()> line = {};      // and a whole line of it
  bool keyboard = false;                                      // the input is a terminal
  std::function<void(std::chrono::milliseconds)> pause = {};  // waits on the clock of `now`
  // line_editor.h; nothing where the input is no terminal
  std::function<std::optional<std::string>(const std::string&, std::string_view)> answer = {};
  // What comes in, to its end or so many bytes of it.
  std::function<std::string(std::size_t)> input = {};
  bool errors_on_terminal = false;  // the error output is one
  std::size_t height = 0;           // rows of the output; 0 where it is no terminal
  // How long to wait for another program that holds the logbook.
  std::chrono::milliseconds patience = logbook::Waiting::kUsual;
  // Where whole files go that are put out in place of an answer (pages, tables, copies); nothing
  // where that is `out`.
  std::ostream* documents = nullptr;
  // Shows a text that is longer than the terminal (pager.h); nothing where the output is none.
  std::function<void(const std::string&)> pager = {};
};

}  // namespace terminal
