#include "report/fluid_report.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "quantity/volume_text.h"
#include "report/json_text.h"

namespace report {
namespace {

using progress::FluidBalance;

// To the nanolitre, so that sums of decimal amounts print as decimals.
double millilitres(quantity::Volume volume) {
  return std::round(volume.in_millilitres() * 1e6) / 1e6;
}

nlohmann::ordered_json amounts_json(const FluidAmounts& amounts) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto* entry : amounts) {
    rows.push_back({{"typed", entry->content.typed},
                    {"ml", millilitres(entry->content.amount)},
                    {"by", entry->stamp.by},
                    {"done_at", record::write_utc(entry->stamp.done_at)},
                    {"note", entry->content.note}});
  }
  return rows;
}

}  // namespace

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

std::string balance_in_words(const FluidBalance& balance) {
  const auto none = quantity::Volume::millilitres(0);
  if (balance.still_to_go_back > none) {
    return "still to go back at least " + quantity::write_rounded(balance.still_to_go_back);
  }
  if (balance.more_than_came_out > none) {
    return quantity::write_rounded(balance.more_than_came_out) + " more went in than came out";
  }
  return "as much went back as came out";
}

std::string fluids_text(const std::vector<FluidBalance>& balances, const Page& page) {
  if (balances.empty()) return "no fluid was drained or filled so far\n";
  std::string text;
  for (const auto& balance : balances) {
    text += strong(balance.fluid, page) + '\n';
    text += wrapped(amounts_in_words(balance.drained, balance.sum_drained), page.width,
                    "  drained  ", "           ");
    text += wrapped(amounts_in_words(balance.filled, balance.sum_filled), page.width, "  filled   ",
                    "           ");
    text += wrapped(balance_in_words(balance), page.width, "  ", "  ");
  }
  return text;
}

std::string fluids_json(const std::vector<FluidBalance>& balances) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& balance : balances) {
    rows.push_back({{"fluid", balance.fluid},
                    {"drained", amounts_json(balance.drained)},
                    {"filled", amounts_json(balance.filled)},
                    {"drained_ml", millilitres(balance.sum_drained)},
                    {"filled_ml", millilitres(balance.sum_filled)},
                    {"still_to_go_back_ml", millilitres(balance.still_to_go_back)}});
  }
  return json_text({{"fluids", std::move(rows)}});
}

}  // namespace report
