#pragma once

// The only file that names a Catch2 header: version 2 and version 3 lay theirs out differently.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#define BOLTWITNESS_CATCH_3 1
#else
#include <catch2/catch.hpp>
#endif

#if defined(BOLTWITNESS_CATCH_3)
using Catch::Matchers::ContainsSubstring;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
#else
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
inline auto ContainsSubstring(const std::string& part) { return Catch::Matchers::Contains(part); }
#endif
