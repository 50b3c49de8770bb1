#include "screen/found_answer.h"

#include <fmt/format.h>

#include "finding/not_to_be_tested.h"
#include "words/deviation_in_words.h"
#include "words/found_value.h"
#include "words/remedy_text.h"
#include "words/verdict_text.h"

namespace screen {

std::string found_answer(const finding::JointState& joint, const finding::Finding& finding,
                         const audit::Cause* likeliest, const words::Page& page) {
  const auto line = [&](const std::string& says) {
    return words::wrapped(says, page.width, "  ", "    ");
  };
  std::string text = words::wrapped(words::strong(words::verdict_text(joint, finding), page),
                                    page.width, "", "  ");
  const bool is_outside =
      finding.verdict == finding::Verdict::Low || finding.verdict == finding::Verdict::High;
  if (is_outside && finding.torque.best) {
    text += line(
        fmt::format("it was tightened to about {} {}: {}",
                    words::tightened_words(finding::tightened_to(finding.torque), joint.unit),
                    quantity::name_of(joint.unit), finding::word_of(finding.tightened_verdict)));
  }
  if (likeliest != nullptr) text += line(words::cause_in_words(*likeliest));
  for (const auto* rule : finding.graded.rules) {
    text += line(fmt::format("grade {}: {}", finding::letter_of(finding.graded.grade), rule->why));
  }
  const auto no_test = finding::why_not_to_be_tested(joint, finding.entry->content.position);
  if (!no_test.empty()) return text + line(no_test);
  if (finding.verdict == finding::Verdict::Within) return text;
  for (const auto& help : words::help_lines(joint, finding)) text += line(help);
  return text;
}

}  // namespace screen
