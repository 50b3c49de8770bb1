#if __has_include(<catch2/catch_session.hpp>)
#include <catch2/catch_session.hpp>
#else
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>
#endif

#include <iostream>

#include "support/published.h"

// Nothing is printed behind a list of the tests: CTest reads that.
int main(int argc, char** argv) {
  const int failed = Catch::Session().run(argc, argv);
  std::cout << published_line(published_count());
  return failed;
}
