#include "screen/found_answer.h"

#include <fmt/format.h>

#include <span>
#include <utility>

#include "finding/not_to_be_tested.h"
#include "words/deviation_in_words.h"
#include "words/found_value.h"
#include "words/remedy_text.h"
#include "words/verdict_text.h"

namespace screen {

std::vector<std::string> found_lines(const finding::JointState& joint,
                                     const finding::Finding& finding,
                                     const audit::Cause* likeliest) {
  std::vector<std::string> lines = {words::verdict_text(joint, finding)};
  const bool is_outside =
      finding.verdict == finding::Verdict::Low || finding.verdict == finding::Verdict::High;
  if (is_outside && finding.torque.best) {
    lines.push_back(
        fmt::format("it was tightened to about {} {}: {}",
                    words::tightened_words(finding::tightened_to(finding.torque), joint.unit),
                    quantity::name_of(joint.unit), finding::word_of(finding.tightened_verdict)));
  }
  const auto add = [&](std::string says) {
    if (!says.empty()) lines.push_back(std::move(says));
  };
  add(words::closer_than_shown(finding, joint.unit));
  add(words::read_well_known_badly(finding));
  if (likeliest != nullptr) lines.push_back(words::cause_in_words(*likeliest));
  for (const auto* rule : finding.graded.rules) {
    lines.push_back(
        fmt::format("grade {}: {}", finding::letter_of(finding.graded.grade), rule->why));
  }
  const auto no_test = finding::why_not_to_be_tested(joint, finding.entry->content.position);
  if (!no_test.empty() || finding.verdict == finding::Verdict::Within) return lines;
  for (const auto& help : words::help_lines(joint, finding)) lines.push_back(help);
  return lines;
}

std::string found_answer(const finding::JointState& joint, const finding::Finding& finding,
                         const audit::Cause* likeliest, const words::Page& page) {
  const auto lines = found_lines(joint, finding, likeliest);
  std::string text = words::wrapped(words::strong(lines.front(), page), page.width, "", "  ");
  for (const auto& line : std::span(lines).subspan(1)) {
    text += words::wrapped(line, page.width, "  ", "    ");
  }
  return text;
}

}  // namespace screen
