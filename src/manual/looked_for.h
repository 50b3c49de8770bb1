#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "manual/page.h"

namespace manual {

// What is looked for, as it is compared: in lower case, with a hyphen for each blank.
[[nodiscard]] std::string as_looked_for(std::string_view typed);

// The words that a reader may look for a page under besides its name, as_looked_for() each. They
// stand below its title: "<!-- looked for as: pass rules, rounds -->".
[[nodiscard]] std::vector<std::string> looked_for_as(const Page& page);

// The page of this name, of this title, or one that is looked for as this; nullptr for none.
[[nodiscard]] const Page* page_about(std::string_view typed);

}  // namespace manual
