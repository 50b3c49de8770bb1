#pragma once

#include <string_view>
#include <vector>

namespace phone {

// A file of the pages, put into the program by its build.
struct PageFile {
  std::string_view name;
  std::string_view content;
};

[[nodiscard]] const std::vector<PageFile>& page_files();

}  // namespace phone
