#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

namespace words {

// Columns that a text takes where it is shown. In some locales the terminal has not all of its
// characters, and what stands for one may be wider ("+/-" for the sign): where a line is broken,
// and whether a table fits, is measured so. display_width() where nothing else was said.
[[nodiscard]] std::size_t given_width(std::string_view text);

// What becomes of a line on its way to the terminal of this thread, for as long as this lives.
class GivenAs {
 public:
  using Change = std::function<std::string(std::string_view line)>;

  // Nothing becomes of it where `change` is empty.
  explicit GivenAs(Change change);
  ~GivenAs();
  GivenAs(const GivenAs&) = delete;
  GivenAs& operator=(const GivenAs&) = delete;

 private:
  Change change_;
  const Change* before_;
};

}  // namespace words
