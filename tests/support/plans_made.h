#pragma once

// How many reassembly plans have been computed in this process. The linker puts the counter between
// plan::reassembly_plan and whoever calls it from another room (tests/CMakeLists.txt); the program
// itself knows nothing of it.
int plans_made();
