#include "paper/count_tables.h"

#include <fmt/format.h>

#include <string>

#include "paper/grid_table.h"
#include "progress/open_list.h"

namespace paper {

void write_joint_counts(Markup& page, const progress::Reassembly& reassembly) {
  begin_table(
      page, "Counts by joint",
      {"joint", "holds", "fasteners", "out", "final value", "final stripe", "second person"},
      "counts");
  for (const auto& count : progress::joint_counts(reassembly)) {
    const auto& joint = *count.joint->joint;
    write_row(page, {joint.code, joint.holds, std::to_string(joint.count),
                     std::to_string(count.out), std::to_string(count.final_value),
                     std::to_string(count.striped), std::to_string(count.checked)});
  }
  end_table(page);
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
