#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "support/browser.h"

// Pages are left to be looked at in the folder that BOLTWITNESS_LOOK names; nothing where it names
// none.
[[nodiscard]] bool is_looked_at();
void leave(const std::string& name, std::string_view bytes);

// What axe-core (in the file that BOLTWITNESS_AXE names: scripts/check_pages) has against the page
// that is open. Without such a file the test fails.
class Axe {
 public:
  Axe();

  [[nodiscard]] std::vector<std::string> findings_on(Browser& browser) const;

 private:
  std::string rules_;
};
