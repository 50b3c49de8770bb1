#pragma once

#include <string>

#include "failure/failure.h"
#include "support/catch.h"

// The message with which the call refuses its input; empty where it took it. Any other exception
// than InputError fails the test.
template <class Call>
std::string refusal_of(Call&& call) {
  try {
    (void)call();
  } catch (const failure::InputError& error) {
    return error.what();
  }
  return {};
}
