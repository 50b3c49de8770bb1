#pragma once

#include <string>

#include "record/joint.h"

// A joint of four for tests of what a size and a grade can carry.
inline record::Joint joint_of(const std::string& size, const std::string& grade) {
  record::Joint joint;
  joint.code = "J01";
  joint.size = size;
  joint.grade = grade;
  joint.count = 4;
  return joint;
}
