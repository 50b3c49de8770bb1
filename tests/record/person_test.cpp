#include "record/person.h"

#include "support/catch.h"

namespace person_test {

using record::is_same_person;

TEST_CASE("one name is one person however it is typed", "[record]") {
  CHECK(is_same_person("A. Kay", "a.kay"));
  CHECK(is_same_person("Ada", "Ada\uFE0F"));              // from a file of an earlier version
  CHECK(is_same_person("Ada", "A\u2800da\uE000\uFDD0"));  // the same
  CHECK(is_same_person("Ada Kay", "Ada\u00A0Kay"));       // a no-break space
  CHECK(is_same_person("Ada Kay", "Ada\u3000Kay"));       // an ideographic space
  CHECK(is_same_person("Ada", "\uFF21\uFF44\uFF41"));     // full width
  CHECK(is_same_person("Zo\u00EB", "Zoe\u0308"));         // composed and not
  CHECK(is_same_person("Z\u00CB", "z\u00EB"));            // case beyond ASCII
  CHECK(
      is_same_person("\u039D\u03AF\u03BA\u03B7", "\u03BD\u03AF\u03BA\u03B7"));  // nu in both cases
}

// Pairs of confusables.txt of Unicode UTS 39, version 15.0.
TEST_CASE("a Greek or Cyrillic letter makes no second person of a Latin name", "[record]") {
  CHECK(is_same_person("Ada", "\u0410da"));       // Cyrillic capital A
  CHECK(is_same_person("Ada", "\u0391d\u0430"));  // Greek capital alpha, Cyrillic small a
  CHECK(is_same_person("ada", "\u0430\u0501\u0430"));
  CHECK(is_same_person("KH", "\u039A\u0397"));  // Greek kappa, eta
  CHECK(is_same_person("KH", "\u041A\u041D"));  // Cyrillic ka, en
}

TEST_CASE("two names are two persons", "[record]") {
  CHECK_FALSE(is_same_person("Ada", "Ida"));
  CHECK_FALSE(is_same_person("Zoe", "Zo\u00EB"));
  CHECK_FALSE(is_same_person("\u0418\u0432\u0430", "\u0410\u0434\u0430"));
  CHECK_FALSE(is_same_person("\u6F22", "\u5B57"));
}

}  // namespace person_test
