// What comes out where the locale has fewer characters than UTF-8.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>
#include <sstream>

#include "manual/page.h"
#include "support/catch.h"
#include "support/sample_job.h"
#include "support/trial.h"
#include "terminal/locale_characters.h"

namespace locale_test {

namespace {

bool is_ascii(const std::string& text) {
  return std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

// The text as iconv(1) turns it into UTF-8.
std::string from_latin_1(const Trial& trial, const std::string& text) {
  const auto file = trial.folder().file("latin-1.txt");
  std::ofstream(file, std::ios::binary) << text;
  const auto command = "iconv -f ISO-8859-1 -t UTF-8 " + file;
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(::popen(command.c_str(), "r"), ::pclose);
  REQUIRE(pipe);
  std::string read;
  std::array<char, 4096> some{};
  while (const auto size = std::fread(some.data(), 1, some.size(), pipe.get())) {
    read.append(some.data(), size);
  }
  return read;
}

void name_locale(Trial& trial, const std::string& name) { trial.environment["LC_ALL"] = name; }

}  // namespace

TEST_CASE("every answer is plain in a locale that has ASCII alone", "[cli]") {
  Trial trial;
  run_sample_job(trial);
  trial.done("fluid 'Öl ±3 日本' --drained '1.2 L' --note 'naïve Straße'");
  for (const auto* locale : {"C", "POSIX", "de_DE", "en_US.US-ASCII", "xx_XX.no-such-set"}) {
    name_locale(trial, locale);
    for (const auto* command :
         {"status", "show J06", "show J06/1", "compare", "audit --all --why", "sequence --whole",
          "history --whole", "wrench", "fluid", "help torques", "help words", "convert '70 ft·lbf'",
          "bolt M12 --grade 8.8 --torque '80 N·m' --condition oiled", "found --help",
          "convert '70 foot'"}) {
      const auto answer = trial.run(command);
      INFO(locale << ": " << command);
      CHECK(is_ascii(answer.out));
      CHECK(is_ascii(answer.err));
    }
  }
}

TEST_CASE("a line is broken by what comes out in the locale", "[cli]") {
  Trial trial;
  run_sample_job(trial);
  std::vector<std::string> commands = {
      "status",           "show J06", "show J06/1", "compare", "audit --all --why",
      "sequence --whole", "history",  "wrench",     "joint",   "found --help"};
  for (const auto& page : manual::pages()) commands.push_back(fmt::format("help {}", page.name));
  name_locale(trial, "C");
  for (const auto& command : commands) {
    for (const std::size_t width : {60U, 80U, 100U}) {
      trial.width = width;
      std::istringstream lines(trial.run(command).out);
      for (std::string line; std::getline(lines, line);) {
        INFO(command << " at " << width << ": " << line);
        CHECK(line.size() <= width);
      }
    }
  }
}

TEST_CASE("what stands for a character can be typed, or read", "[cli]") {
  Trial trial;
  name_locale(trial, "C");
  CHECK_THAT(trial.done("convert '80 N.m'").out, ContainsSubstring("N.m"));
  CHECK_THAT(trial.done("convert '80 N·m' --to N.m").out, ContainsSubstring("80 N.m\n"));
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine 'Straße nach Łódź, 日本'");
  trial.done(
      "joint J06 --holds cap --size M12x1.25 --grade 10.9 --count 4 --spec '60 N.m +/-5%, +60 "
      "deg'");
  CHECK_THAT(trial.done("show J06").told(), ContainsSubstring("60 N.m +/-5%, +60 deg"));
  CHECK_THAT(trial.run("status").told(), ContainsSubstring("Strasse nach Lodz, <U+65E5><U+672C>"));
}

TEST_CASE("columns stay where they are behind a wider stand-in", "[cli]") {
  terminal::LocaleText text("us-ascii");
  CHECK(text.put("± N·m   verdict\n") == "+/- N.m verdict\n");
  CHECK(text.put("x°    y\n") == "x deg y\n");
  CHECK(text.put("15 °C\n") == "15 degC\n");
  CHECK(text.put("2  z\n") == "2  z\n");
}

TEST_CASE("a locale with more characters gets those that it has", "[cli]") {
  Trial trial;
  run_sample_job(trial);
  const auto in_utf_8 = trial.run("compare").out;
  name_locale(trial, "de_DE.ISO-8859-1");
  const auto in_latin_1 = trial.run("compare").out;
  CHECK(in_latin_1.find('\xB7') != std::string::npos);
  CHECK(from_latin_1(trial, in_latin_1) == in_utf_8);
  CHECK_THAT(trial.done("help method").out, !ContainsSubstring("\xC2\xB1"));
}

TEST_CASE("JSON, tables and pages are UTF-8 whatever the locale", "[cli]") {
  Trial trial;
  run_sample_job(trial);
  for (const auto* command : {"compare --json", "history --json-lines", "export joints",
                              "export --json-lines", "sheet J06", "convert '1 N·m' --json"}) {
    trial.environment.erase("LC_ALL");
    const auto at = trial.now;
    const auto expected = trial.run(command).out;
    name_locale(trial, "C");
    trial.now = at;
    INFO(command);
    CHECK_FALSE(is_ascii(expected));
    CHECK(trial.run(command).out == expected);
  }
}

TEST_CASE("the locale is that of LC_ALL, else LC_CTYPE, else LANG", "[cli]") {
  std::map<std::string, std::string> variables;
  const auto environment = [&](const char* name) -> std::optional<std::string> {
    const auto found = variables.find(name);
    return found == variables.end() ? std::nullopt : std::optional(found->second);
  };
  CHECK_FALSE(terminal::locale_characters(environment));
  variables["LANG"] = "en_GB.UTF-8";
  CHECK(terminal::locale_characters(environment) == "utf-8");
  variables["LC_CTYPE"] = "de_DE.ISO-8859-15@euro";
  CHECK(terminal::locale_characters(environment) == "iso-8859-15");
  variables["LC_ALL"] = "C";
  CHECK(terminal::locale_characters(environment) == "us-ascii");
  variables["LC_ALL"] = "";
  CHECK(terminal::locale_characters(environment) == "iso-8859-15");
}

}  // namespace locale_test
