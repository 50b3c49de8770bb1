#include "finding/other_fastener.h"

#include <fmt/format.h>

#include "record/address.h"

namespace finding {

std::string other_fastener(const record::Joint& joint, const record::Removal& removal) {
  std::string text;
  const auto add = [&](std::string_view what, std::string_view out, std::string_view expected) {
    text += fmt::format("{}{} {} came out where {} belongs", text.empty() ? "" : "; ", what, out,
                        expected);
  };
  if (removal.other_length && joint.length &&
      !quantity::is_same(*removal.other_length, *joint.length)) {
    add("length", record::other_length_text(removal), record::length_text(joint));
  }
  if (!removal.other_size.empty() && removal.other_size != joint.size) {
    add("size", removal.other_size, joint.size);
  }
  if (!removal.other_grade.empty() && removal.other_grade != joint.grade) {
    add("grade", removal.other_grade, joint.grade);
  }
  return text;
}

std::optional<std::string> swapped_with(const Survey& survey, const record::Joint& joint,
                                        const record::Removal& removal) {
  if (!removal.other_length || !joint.length) return std::nullopt;
  std::optional<std::string> partner;
  for (const auto& other : survey.joints) {
    if (!other.joint->length || other.joint == &joint) continue;
    for (const auto& position : other.positions) {
      if (position.removal == nullptr) continue;
      const auto& out = position.removal->content;
      if (out.other_length && quantity::is_same(*out.other_length, *joint.length) &&
          quantity::is_same(*removal.other_length, *other.joint->length)) {
        partner = record::write_address(other.joint->code, position.position);
      }
    }
  }
  return partner;
}

}  // namespace finding
