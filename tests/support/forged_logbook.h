#pragma once

#include <string>

// Changes a logbook behind the program and leaves nothing that shows it: the triggers are put back,
// and every hash is made anew.
void forge(const std::string& path, const std::string& sql);
