#pragma once

#include <string>

namespace terminal {

// Shows a text that is longer than the terminal through the program that PAGER names, else through
// less or more; as it is where PAGER is empty, where there is none of them, and where it cannot be
// started. Returns when the person has read on.
void show_in_pager(const std::string& text);

}  // namespace terminal
