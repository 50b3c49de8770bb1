#pragma once

#include <string>

// Changes a logbook behind the program, with the triggers out of the way, which are put back. What
// was changed does not fit its hash any more.
void alter(const std::string& path, const std::string& sql);

// The same, and leaves nothing that shows it: every hash is made anew.
void forge(const std::string& path, const std::string& sql);

// The same of the last line alone: those before it keep the hashes that another copy has of them.
void forge_last(const std::string& path, const std::string& sql);

// More than is held against its hashes as a whole, of pages that hold nothing.
void enlarge(const std::string& path);
