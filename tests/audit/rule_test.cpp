// What a rule looks at, and what a decision on it can rest on.

#include "audit/rule.h"

#include <set>
#include <string>

#include "audit/audit.h"
#include "support/catch.h"

namespace rule_test {

namespace {

// A line about fasteners that nobody put into the list of kinds.
struct Unlisted {
  std::string joint;
  std::vector<int> positions;
};

template <class Kind>
concept CanBeRestedOn = requires {
  audit::kRestsOn<Kind>.template has<Kind>();
};

static_assert(CanBeRestedOn<record::Removal>);
static_assert(CanBeRestedOn<record::Pull>);
static_assert(CanBeRestedOn<record::FinalStripe>);
static_assert(!CanBeRestedOn<record::Wrench>);  // about no fastener

template <class Kind>
concept IsListed = requires {
  record::Kinds::index_of<Kind>();
};
static_assert(IsListed<record::Removal> && !IsListed<Unlisted>);

}  // namespace

TEST_CASE("a rule rests on the kinds of lines that it names and on no others", "[audit]") {
  constexpr auto kBoth = audit::kRestsOn<record::Removal, record::Tightening>;
  static_assert(kBoth.has<record::Removal>() && kBoth.has<record::Tightening>());
  static_assert(!kBoth.has<record::Measured>() && !kBoth.has<record::FinalStripe>());
  static_assert(!audit::RestsOn{}.has<record::Removal>());
  const auto all = audit::kRestsOn<record::Pull>.with(kBoth);
  CHECK(all.has<record::Pull>());
  CHECK(all.has<record::Removal>());
  CHECK_FALSE(all.has<record::Measured>());
}

TEST_CASE("ten rules have to see the whole job, all others see one joint", "[audit]") {
  std::set<std::string_view> whole;
  for (const auto& rule : audit::rules()) {
    if (std::holds_alternative<audit::LooksAtJob>(rule.look)) whole.insert(rule.name);
  }
  CHECK(whole == std::set<std::string_view>{"ahead of the clock", "counter backwards",
                                            "decided apart", "fluid balance", "logged apart",
                                            "missing joint", "no order", "stray entry",
                                            "struck apart", "two meanings"});
}

}  // namespace rule_test
