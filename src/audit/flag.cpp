#include "audit/flag.h"

#include <fmt/format.h>

#include "quantity/number_text.h"
#include "record/address.h"

namespace audit {
namespace {

Deviation made(const Rule& rule, Level level, std::string id, std::string joint,
               std::optional<int> position, Statement says, std::string what_to_do) {
  Deviation deviation;
  deviation.id = std::move(id);
  deviation.level = level;
  deviation.rule = rule.name;
  deviation.joint = std::move(joint);
  deviation.position = position;
  deviation.says = says.text;
  deviation.what_to_do = std::move(what_to_do);
  if (position) deviation.positions = {*position};
  Part part;
  part.id = deviation.id;
  part.position = position;
  part.says = std::move(says.text);
  part.figures = std::move(says.figures);
  part.old_says = std::move(says.old_text);
  deviation.parts.push_back(std::move(part));
  return deviation;
}

Statement scale_end(double value, const record::Wrench& wrench) {
  return {quantity::write_rounded(value),
          as::torque(quantity::StatedTorque{value, wrench.scale.unit}).figures};
}

}  // namespace

std::string dashed(std::string_view name) {
  std::string text(name);
  for (char& c : text) {
    if (c == ' ') c = '-';
  }
  return text;
}

Deviation flag_position(const Rule& rule, Level level, const finding::JointState& joint,
                        int position, Statement says, std::string what_to_do) {
  const auto& code = joint.joint->code;
  return made(rule, level,
              fmt::format("{}:{}", dashed(rule.name), record::write_address(code, position)), code,
              position, std::move(says), std::move(what_to_do));
}

Deviation flag_joint(const Rule& rule, Level level, const finding::JointState& joint,
                     Statement says, std::string what_to_do) {
  const auto& code = joint.joint->code;
  return made(rule, level, fmt::format("{}:{}", dashed(rule.name), code), code, std::nullopt,
              std::move(says), std::move(what_to_do));
}

Deviation flag_positions(const Rule& rule, Level level, const finding::JointState& joint,
                         const std::vector<int>& which, const Statement& said,
                         std::string what_to_do) {
  const auto& code = joint.joint->code;
  auto deviation = made(
      rule, level, fmt::format("{}:{}/{}", dashed(rule.name), code, record::write_positions(which)),
      code, std::nullopt, says("{}: {}", as::numbers(which), said), std::move(what_to_do));
  deviation.positions = which;
  return deviation;
}

Deviation flag_group(const Rule& rule, Level level, const finding::JointState& joint,
                     const std::vector<int>& which, const Statement& said, std::string what_to_do) {
  return which.size() == joint.positions.size()
             ? flag_joint(rule, level, joint, said, std::move(what_to_do))
             : flag_positions(rule, level, joint, which, said, std::move(what_to_do));
}

Deviation flag_part(const Rule& rule, Level level, const finding::JointState& joint,
                    std::string_view which, Statement says, std::string what_to_do) {
  const auto& code = joint.joint->code;
  return made(rule, level, fmt::format("{}:{}:{}", dashed(rule.name), code, dashed(which)), code,
              std::nullopt, std::move(says), std::move(what_to_do));
}

Deviation flag_job(const Rule& rule, Level level, Statement says, std::string what_to_do) {
  return made(rule, level, dashed(rule.name), "", std::nullopt, std::move(says),
              std::move(what_to_do));
}

Deviation apart(Deviation deviation) {
  deviation.kind = deviation.id;
  return deviation;
}

Deviation of_kind(Deviation deviation, std::string_view kind) {
  deviation.kind = kind;
  return deviation;
}

std::string once_it_is_reached(const JointCase& at) {
  const auto& covers = at.whole.lookups->covers;
  const auto command = covers.command_to_open(at.joint.joint->code, at.whole.now);
  return command.empty() ? command : fmt::format("what covers it is on: {}; then ", command);
}

Statement usable_range(const record::Wrench& wrench) {
  return says("{} to {} {}", scale_end(record::least_setting(wrench), wrench),
              scale_end(wrench.scale.high, wrench),
              as::wording(quantity::name_of(wrench.scale.unit)));
}

Statement calibration(const record::Wrench& wrench) {
  return says("calibrated {}, valid to {}", as::day(*wrench.calibrated),
              as::day(*record::calibration_ends(wrench)));
}

}  // namespace audit
