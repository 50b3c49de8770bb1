#include "paper/joint_rows.h"

#include <fmt/format.h>

#include <string>

#include "paper/found_result.h"
#include "paper/grid_table.h"
#include "progress/open_list.h"

namespace paper {

void write_joint_rows(Markup& page, const progress::Reassembly& reassembly) {
  GridTable table(
      page, "One row a joint",
      {"joint", "holds", "found torque", "out", "final value", "stripe", "second person"},
      "joints");
  for (const auto& count : progress::joint_counts(reassembly)) {
    const auto& joint = *count.joint->joint;
    table.row({joint.code, joint.holds, found_result(*count.joint),
               fmt::format("{} of {}", count.out, joint.count),
               fmt::format("{} of {}", count.final_value, count.planned),
               fmt::format("{} of {}", count.striped, count.planned),
               joint.critical ? fmt::format("{} of {}", count.checked, count.planned)
                              : std::string("-")});
  }
  table.end();
}

void write_bag_counts(Markup& page, const progress::Reassembly& reassembly) {
  const auto counts = progress::bag_counts(reassembly);
  if (counts.empty()) return;
  std::string text = "Back out of the bags:";
  for (const auto& count : counts) {
    text += fmt::format("{} {} {} of {}", &count == counts.data() ? "" : ";", count.bag, count.back,
                        count.out);
  }
  page.element("p", text);
}

}  // namespace paper
