#include "support/torture.h"

#include <cstdlib>
#include <fstream>
#include <string_view>

std::size_t trials(std::size_t in_short, std::size_t in_long) {
  const char* form = std::getenv("BOLTWITNESS_TORTURE");
  return form != nullptr && std::string_view(form) == "long" ? in_long : in_short;
}

void tell_torture(const std::string& what, std::size_t tried, const std::string& found,
                  std::size_t faults) {
  const char* table = std::getenv("BOLTWITNESS_TORTURE_TABLE");
  if (table == nullptr) return;
  auto one_line = found;
  for (char& c : one_line) c = c == '\n' || c == '\t' ? ' ' : c;
  std::ofstream(table, std::ios::app)
      << what << '\t' << tried << '\t' << one_line << '\t' << faults << '\n';
}
