#include "logbook/rows/tables_of_kind.h"

#include <algorithm>
#include <array>

namespace logbook {
namespace {

struct TablesOfKind {
  std::string_view kind;
  std::string_view row;     // one for each line
  std::string_view always;  // one row or more besides, where it is named
  std::array<std::string_view, 3> maybe = {};
};

constexpr TablesOfKind kTablesOfKinds[] = {
    {"start", "logbook_start", ""},
    {"wrench", "wrench", ""},
    {"joint", "joint", "", {"joint_after", "joint_covers", "joint_recheck"}},
    {"specification", "specification", "", {"specification_position"}},
    {"removal", "removal", "removal_position"},
    {"finding", "finding", "setting_reading"},
    {"pull", "pull", ""},
    {"fluid", "fluid", ""},
    {"item", "item", ""},
    {"item return", "item_return", ""},
    {"hold point", "hold_point", "", {"hold_point_joint"}},
    {"hold point step", "hold_point_step", ""},
    {"renewal", "renewal", "renewal_position"},
    {"tightening", "tightening", "tightening_position"},
    {"stripe", "stripe", "stripe_position"},
    {"recheck", "recheck", "recheck_position"},
    {"photograph", "photograph", "", {"photograph_position"}},
    {"disposition", "disposition", "", {"disposition_done", "disposition_part"}},
    {"strike", "strike", ""}};

}  // namespace

bool are_tables_of(std::string_view kind, const std::vector<std::string_view>& tables) {
  const auto* const own = std::ranges::find(kTablesOfKinds, kind, &TablesOfKind::kind);
  if (own == std::ranges::end(kTablesOfKinds)) return false;
  bool has_row = false;
  bool has_always = own->always.empty();
  for (const auto table : tables) {
    if (table == own->row) {
      has_row = true;
    } else if (table == own->always) {
      has_always = true;
    } else if (std::ranges::find(own->maybe, table) == own->maybe.end()) {
      return false;
    }
  }
  return has_row && has_always;
}

}  // namespace logbook
