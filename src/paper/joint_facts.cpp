#include "paper/joint_facts.h"

#include <algorithm>
#include <limits>
#include <string>
#include <string_view>

#include "report/joint_heading.h"

namespace paper {

void write_joint_facts(Markup& page, const finding::JointState& joint,
                       const record::LogbookStart& start) {
  const auto& what = *joint.joint;
  page.open("h2");
  page.element("span", {{"class", "code"}}, what.code).text(what.holds);
  page.close();
  // Each line of the heading as the terminal has it, unbroken; the paper breaks it where it likes.
  constexpr report::Page kUnbroken{std::numeric_limits<std::size_t>::max() / 2, false};
  const auto heading = report::joint_heading(joint, start, kUnbroken);
  std::string_view rest = heading;
  rest.remove_prefix(what.code.size());
  const auto holds = "  " + what.holds + "; ";
  if (rest.starts_with(holds)) rest.remove_prefix(holds.size());  // it stands in the heading
  while (!rest.empty()) {
    const auto end = rest.find('\n');
    auto line = rest.substr(0, end);
    line.remove_prefix(std::min(line.find_first_not_of(' '), line.size()));
    if (!line.empty()) page.element("p", line);
    rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
  }
}

}  // namespace paper
