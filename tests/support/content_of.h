#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

// Every byte of a file; nothing where there is none.
inline std::string content_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}
