#include "words/fluid_in_words.h"

#include <fmt/format.h>

#include "quantity/volume_text.h"

namespace words {

using progress::FluidBalance;

std::string amounts_in_words(const FluidAmounts& amounts, quantity::Volume sum) {
  std::string text;
  for (const auto* entry : amounts) {
    const auto& amount = entry->content;
    text += (text.empty() ? "" : " + ") + amount.typed;
    if (!amount.note.empty()) text += " (" + amount.note + ")";
  }
  if (amounts.empty()) return "nothing";
  return amounts.size() == 1 ? text : text + " = " + quantity::write_rounded(sum);
}

namespace {

std::string what_goes_back(const FluidBalance& balance) {
  const auto none = quantity::Volume::millilitres(0);
  if (balance.still_to_go_back > none) {
    return "still to go back at least " + quantity::write_rounded(balance.still_to_go_back);
  }
  if (balance.more_than_came_out > none) {
    return quantity::write_rounded(balance.more_than_came_out) + " more went in than came out";
  }
  return "as much went back as came out";
}

}  // namespace

std::string balance_in_words(const FluidBalance& balance) {
  auto text = what_goes_back(balance);
  if (!balance.filled_before.empty()) {
    text += fmt::format("; {} went in before any of it was drained and counts for nothing of that",
                        quantity::write_rounded(balance.sum_filled_before));
  }
  return text;
}

}  // namespace words
