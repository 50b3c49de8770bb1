#include "quantity/base64.h"

#include "support/catch.h"
#include "support/property.h"
#include "support/published.h"

namespace base64_test {

using Catch::Matchers::Equals;
using quantity::read_base64;
using quantity::write_base64;

TEST_CASE("bytes are written as RFC 4648 prints them", "[quantity][published]") {
  // Section 10, test vectors.
  const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                         {"f", "Zg=="},
                                                         {"fo", "Zm8="},
                                                         {"foo", "Zm9v"},
                                                         {"foob", "Zm9vYg=="},
                                                         {"fooba", "Zm9vYmE="},
                                                         {"foobar", "Zm9vYmFy"}};
  for (const auto& [bytes, text] : vectors) {
    CHECK_PUBLISHED(Published::FromMemory, write_base64(bytes), Equals(text));
    CHECK(read_base64(text) == bytes);
  }
}

TEST_CASE("what was not written so is refused", "[quantity]") {
  for (const auto* text :
       {"Z", "Zg=", "Zg", "Zh==", "Z===", "====", "Zm 9", "Zm9v\n", "Zm9-", "=Zm9", "Zg==Zg=="}) {
    INFO(text);
    CHECK_FALSE(read_base64(text));
  }
}

TEST_CASE("any bytes come back", "[quantity]") {
  holds_always("every byte", [](const std::string& bytes) {
    RC_ASSERT(read_base64(write_base64(bytes)) == bytes);
  });
}

}  // namespace base64_test
