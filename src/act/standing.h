#pragma once

#include <string>

#include "finding/survey.h"
#include "logbook/logbook.h"
#include "progress/teardown.h"

namespace act {

// One joint as the logbook has it at a moment. All of it points into each other, so it stays where
// it is.
struct Standing {
  Standing(const logbook::Logbook& logbook, const std::string& code);
  Standing(const Standing&) = delete;
  Standing& operator=(const Standing&) = delete;

  record::Job job;
  finding::Survey survey;
  const finding::JointState* joint;
  progress::Teardown teardown;
};

}  // namespace act
