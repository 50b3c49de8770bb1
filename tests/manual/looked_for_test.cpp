#include "manual/looked_for.h"

#include <map>
#include <set>

#include "manual/examples.h"
#include "support/catch.h"

namespace looked_for_test {

TEST_CASE("a page is found by the words that one would look for", "[manual]") {
  const std::map<std::string, std::string> pages = {
      {"start here", "start"},
      {"Start", "start"},
      {"the method and its limits", "method"},
      {"limits", "method"},
      {"specifications", "torques"},
      {"units", "torques"},
      {"torques and units", "torques"},
      {"found torque", "found-torque"},
      {"FOUND-TORQUE", "found-torque"},
      {"found torque and uncertainty", "found-torque"},
      {"uncertainty", "found-torque"},
      {"audit rules", "audit-rules"},
      {"pass-rules", "passes"},
      {"pass rules", "passes"},
      {"order", "order"},
      {"decisions", "decisions"},
      {"paper", "paper"},
      {"phone", "phone"},
      {"tables", "tables"},
      {"trust", "hashes"},
      {"fleet", "fleet"},
      {"how far one file goes", "how-far"},
      {"glossary", "words"},
      {"Words", "words"},
      {"exit codes", "scripts"},
      {"exit-codes", "scripts"},
      {"changes", "changes"},
      {"cautions", "cautions"}};
  for (const auto& [typed, name] : pages) {
    INFO(typed);
    const auto* page = manual::page_about(typed);
    REQUIRE(page != nullptr);
    CHECK(page->name == name);
  }
  CHECK(manual::page_about("nothing of the kind") == nullptr);
  CHECK(manual::page_about("") == nullptr);
}

TEST_CASE("a word leads to one page, and is no page or command itself", "[manual]") {
  std::set<std::string> taken;
  for (const auto& page : manual::pages()) taken.emplace(page.name);
  for (const auto& shown : manual::examples()) taken.insert(shown.command);
  for (const auto& page : manual::pages()) {
    const auto words = manual::looked_for_as(page);
    INFO(page.name);
    CHECK_FALSE(words.empty());
    for (const auto& word : words) {
      INFO(word);
      CHECK(taken.insert(word).second);
      CHECK(word == manual::as_looked_for(word));
    }
  }
}

}  // namespace looked_for_test
