#include "support/looking_over.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "support/catch.h"
#include "support/content_of.h"

bool is_looked_at() { return std::getenv("BOLTWITNESS_LOOK") != nullptr; }

void leave(const std::string& name, std::string_view bytes) {
  const char* folder = std::getenv("BOLTWITNESS_LOOK");
  if (folder == nullptr) return;
  std::ofstream(std::filesystem::path(folder) / name, std::ios::binary) << bytes;
}

Axe::Axe() {
  const char* file = std::getenv("BOLTWITNESS_AXE");
  REQUIRE(file != nullptr);
  rules_ = content_of(file);
  REQUIRE_FALSE(rules_.empty());
}

std::vector<std::string> Axe::findings_on(Browser& browser) const {
  browser.evaluate(rules_ + "; 0");
  return browser
      .evaluate(
          "axe.run(document, {resultTypes: ['violations']}).then(result => result.violations.map("
          "each => each.impact + ': ' + each.id + ' at ' + each.nodes[0].target))")
      .get<std::vector<std::string>>();
}
