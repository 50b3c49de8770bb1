#include "paper/joint_facts.h"

#include "words/joint_heading.h"

namespace paper {

void write_joint_facts(Markup& page, const finding::JointState& joint) {
  const auto& what = *joint.joint;
  page.open("h2");
  page.element("span", {{"class", "code"}}, what.code).text(what.holds);
  page.close();
  page.element("p", words::kind_text(what));
  if (const auto parts = words::parts_text(what); !parts.empty()) page.element("p", parts);
  for (const auto& line : words::specification_lines(joint)) page.element("p", line);
}

}  // namespace paper
