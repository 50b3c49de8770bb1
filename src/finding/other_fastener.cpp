#include "finding/other_fastener.h"

#include <fmt/format.h>

#include <cmath>

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

OddLengths::OddLengths(const Survey& survey) {
  for (const auto& joint : survey.joints) {
    for (const auto& position : joint.positions) {
      if (position.removal == nullptr) continue;
      const auto lengths = lengths_of(*joint.joint, position.removal->content);
      if (lengths) holes_[*lengths] = {joint.joint, position.position};
    }
  }
}

std::optional<std::string> OddLengths::swapped_with(const record::Joint& joint,
                                                    const record::Removal& removal) const {
  const auto lengths = lengths_of(joint, removal);
  if (!lengths) return std::nullopt;
  // Belonging and found the other way round: no hole of the same joint can be among them.
  const auto found = holes_.find({lengths->second, lengths->first});
  if (found == holes_.end()) return std::nullopt;
  return record::write_address(found->second.first->code, found->second.second);
}

std::optional<OddLengths::Lengths> OddLengths::lengths_of(const record::Joint& joint,
                                                          const record::Removal& removal) {
  if (!removal.other_length || !joint.length ||
      quantity::is_same(*removal.other_length, *joint.length)) {
    return std::nullopt;
  }
  const auto micrometres = [](quantity::Length length) {
    return std::llround(length.in_millimetres() * 1000.0);
  };
  return Lengths{micrometres(*joint.length), micrometres(*removal.other_length)};
}

}  // namespace finding
