#include "screen/fluid_answer.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "quantity/volume_text.h"
#include "screen/json_text.h"
#include "words/fluid_in_words.h"

namespace screen {
namespace {

using progress::FluidBalance;

// To the nanolitre, so that sums of decimal amounts print as decimals.
double millilitres(quantity::Volume volume) {
  return std::round(volume.in_millilitres() * 1e6) / 1e6;
}

nlohmann::ordered_json amounts_json(const words::FluidAmounts& amounts) {
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

std::string fluids_text(const std::vector<FluidBalance>& balances, const words::Page& page) {
  if (balances.empty()) return "no fluid was drained or filled so far\n";
  std::string text;
  for (const auto& balance : balances) {
    text += words::strong(balance.fluid, page) + '\n';
    text += words::wrapped(words::amounts_in_words(balance.drained, balance.sum_drained),
                           page.width, "  drained  ", "           ");
    text += words::wrapped(words::amounts_in_words(balance.filled, balance.sum_filled), page.width,
                           "  filled   ", "           ");
    text += words::wrapped(words::balance_in_words(balance), page.width, "  ", "  ");
  }
  return text;
}

std::string fluids_json(const std::vector<FluidBalance>& balances) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& balance : balances) {
    rows.push_back({{"fluid", balance.fluid},
                    {"drained", amounts_json(balance.drained)},
                    {"filled", amounts_json(balance.filled)},
                    {"filled_before_draining", amounts_json(balance.filled_before)},
                    {"drained_ml", millilitres(balance.sum_drained)},
                    {"filled_ml", millilitres(balance.sum_filled)},
                    {"still_to_go_back_ml", millilitres(balance.still_to_go_back)}});
  }
  return json_text(kFluidsFormat, {{"fluids", std::move(rows)}});
}

}  // namespace screen
