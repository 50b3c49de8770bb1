#include "act/kept_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace act {

KeptWords::KeptWords(const Correction& correction) {
  for (const auto& typed : correction.without) {
    const auto name = typed.find_first_not_of('-');
    without_.push_back(name == std::string::npos ? typed : typed.substr(name));
  }
}

bool KeptWords::keeps(std::string_view option, bool is_said) {
  options_.emplace_back(option);
  const bool is_left_out = std::ranges::find(without_, option) != without_.end();
  if (is_said && is_left_out) {
    throw failure::UsageError(
        fmt::format("--without {0} leaves out what --{0} says anew; give one of the two", option));
  }
  return !is_said && !is_left_out;
}

void KeptWords::take(std::string_view option, std::string& said, std::string was) {
  if (keeps(option, !said.empty())) said = std::move(was);
}

void KeptWords::take(std::string_view option, bool& said, bool was) {
  if (keeps(option, said)) said = was;
}

void KeptWords::take(std::string_view option, std::vector<std::string>& said,
                     std::vector<std::string> was) {
  if (keeps(option, !said.empty())) said = std::move(was);
}

void KeptWords::fill(std::string& said, std::string was) {
  if (said.empty()) said = std::move(was);
}

void KeptWords::check() const {
  for (const auto& name : without_) {
    if (std::ranges::find(options_, name) != options_.end()) continue;
    if (options_.empty()) {
      throw failure::UsageError(fmt::format(
          "--without {}: a line of this kind has nothing to leave out", quantity::quoted(name)));
    }
    throw failure::UsageError(fmt::format(
        "--without {}: a line of this kind has no such thing to leave out; it may be {}",
        quantity::quoted(name), fmt::join(options_, ", ")));
  }
}

}  // namespace act
