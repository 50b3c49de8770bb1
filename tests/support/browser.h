#pragma once

#include <sys/types.h>

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "support/temporary_folder.h"

// A headless Chromium, driven over its DevTools protocol through a pair of pipes: no port is opened
// and every host but this machine is cut off, so nothing it does leaves it.
class Browser {
 public:
  Browser();
  ~Browser();
  Browser(const Browser&) = delete;
  Browser& operator=(const Browser&) = delete;

  // What happened while a page was loaded.
  struct Visit {
    std::vector<std::string> requests;    // every address that was asked for, the page's own first
    std::vector<std::string> complaints;  // console messages, exceptions, refusals
  };

  // Loads a file in a window this wide, in CSS pixels, and waits until it is there.
  Visit open(const std::string& file, int width);

  // The same for a page that this machine serves: http://127.0.0.1:8417/.
  Visit open_address(const std::string& address, int width);

  // Loads the page that is open anew and waits until it is there; its own database stays.
  void reload();

  // Another window, in CSS pixels, for the page that is open.
  void resize(int width, int height);

  // As somebody has it who asks for dark pages, or for light ones.
  void prefer_dark(bool is_dark);

  // The whole page as it looks, a PNG; `scale` dots for each CSS pixel.
  std::string screenshot(double scale = 1.0);

  // The page printed on the paper that it asks for: a PDF.
  std::string print();

  // The value of an expression; a promise is waited for.
  nlohmann::json evaluate(const std::string& expression);

 private:
  nlohmann::json call(const std::string& method,
                      nlohmann::json parameters = nlohmann::json::object());
  nlohmann::json next_message();
  void load(const std::string& method, nlohmann::json parameters = nlohmann::json::object());
  void note(const nlohmann::json& event);

  TemporaryFolder profile_;
  pid_t process_ = -1;
  int commands_ = -1;
  int answers_ = -1;
  int last_call_ = 0;
  std::string session_;
  std::string read_;
  Visit visit_;
  bool loaded_ = false;
};

// How many pages a PDF of Chromium's has.
int pages_of(const std::string& pdf);
