#pragma once

#include <functional>
#include <string>
#include <utility>

#include "support/catch.h"

// A test case that is known only when the program starts, such as one for each file of a folder.
class CaseFor : public Catch::ITestInvoker {
 public:
  explicit CaseFor(std::function<void()> body) : body_(std::move(body)) {}
  void invoke() const override { body_(); }

 private:
  std::function<void()> body_;
};

// Adds it to what the test program runs; to be called before main.
inline void add_case(const std::string& name, const std::string& tags, std::function<void()> body) {
#if defined(BOLTWITNESS_CATCH_3)
  Catch::Detail::unique_ptr<Catch::ITestInvoker> invoker(new CaseFor(std::move(body)));
  Catch::AutoReg(std::move(invoker), CATCH_INTERNAL_LINEINFO, Catch::StringRef(),
                 Catch::NameAndTags(name, tags));
#else
  Catch::AutoReg(new CaseFor(std::move(body)), CATCH_INTERNAL_LINEINFO, Catch::StringRef(),
                 Catch::NameAndTags(name, tags));
#endif
}
