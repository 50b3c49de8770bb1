#include "support/failing_call.h"

#include <fstream>
#include <iterator>

#include "support/places.h"

std::map<std::string, std::string> FailingCall::environment(const std::string& told) const {
  return {{"LD_PRELOAD", BOLTWITNESS_FAILING_CALLS},
          // Where addresses are watched, what watches them wants to be loaded first.
          {"ASAN_OPTIONS", "verify_asan_link_order=0"},
          {"FAILING_CALL", call},
          {"FAILING_FOLDER", folder},
          {"FAILING_NUMBER", std::to_string(number)},
          {"FAILING_CODE", std::to_string(code)},
          {"FAILING_LASTING", lasting ? "1" : ""},
          {"FAILING_TOLD", told}};
}

CallsTold calls_told(const std::string& told) {
  std::ifstream file(told);
  const std::string marks(std::istreambuf_iterator<char>(file), {});
  return {marks.size(), marks.find('F') != std::string::npos};
}
