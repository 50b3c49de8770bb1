#pragma once

#include <rapidcheck.h>

#include <string>
#include <utility>

#include "support/catch.h"

// Runs a RapidCheck property inside a Catch2 test case and fails the case with the shrunk
// counterexample. Set RC_PARAMS to repeat a failure from its printed seed.
template <class Property>
void holds_always(const std::string& promise, Property&& property) {
  const auto result = rc::detail::checkTestable(std::forward<Property>(property));
  std::ostringstream report;
  rc::detail::printResultMessage(result, report);
  INFO(promise);
  INFO(report.str());
  CHECK(result.template is<rc::detail::SuccessResult>());
}
