#include "screen/item_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "screen/table.h"
#include "words/item_in_words.h"

namespace screen {

std::string items_text(const std::vector<progress::ItemCount>& counts) {
  if (counts.empty()) return "no counted item came off so far\n";
  Table table;
  table.column("item");
  for (const auto* title : {"off", "back", "missing"}) table.column(title, Table::Align::Right);
  table.column("before");
  table.column("what");
  for (const auto& count : counts) {
    table.row({count.item->code, std::to_string(count.off), std::to_string(count.back),
               std::to_string(count.missing()),
               count.item->before.empty() ? "-" : count.item->before, count.item->what});
  }
  return table.text("");
}

std::string items_json(const std::vector<progress::ItemCount>& counts) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& count : counts) {
    nlohmann::ordered_json row = {{"code", count.item->code},   {"what", count.item->what},
                                  {"off", count.off},           {"back", count.back},
                                  {"missing", count.missing()}, {"before", nullptr}};
    if (!count.item->before.empty()) row["before"] = count.item->before;
    rows.push_back(std::move(row));
  }
  return json_text(kItemsFormat, {{"items", std::move(rows)}});
}

}  // namespace screen
