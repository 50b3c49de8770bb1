#pragma once

#include <cstdlib>
#include <ctime>
#include <string>

// The zone of this process for one test. POSIX TZ strings such as "CET-1CEST,M3.5.0,M10.5.0/3"
// carry their own rules, so no zone data base is needed.
class Zone {
 public:
  explicit Zone(const std::string& name) {
    if (const char* before = std::getenv("TZ")) before_ = before;
    ::setenv("TZ", name.c_str(), 1);
    ::tzset();
  }
  ~Zone() {
    if (before_.empty()) {
      ::unsetenv("TZ");
    } else {
      ::setenv("TZ", before_.c_str(), 1);
    }
    ::tzset();
  }
  Zone(const Zone&) = delete;
  Zone& operator=(const Zone&) = delete;

 private:
  std::string before_;
};
