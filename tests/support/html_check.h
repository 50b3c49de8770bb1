#pragma once

#include <string>

// Reads a page as strictly as this program writes it, and says what is wrong first; empty for a
// sound one. Every tag is closed in turn and stands where HTML lets it stand; text and attributes
// hold no raw mark-up and only references that are known; ids are given once; nothing runs, and
// nothing would be fetched.
std::string fault_of_page(const std::string& page);

// The text of a page with tags taken out and references turned back.
std::string text_of_page(const std::string& page);
