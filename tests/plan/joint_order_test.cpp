#include "plan/joint_order.h"

#include <algorithm>
#include <functional>
#include <map>
#include <set>
#include <string>

#include "failure/failure.h"
#include "support/catch.h"
#include "support/property.h"

namespace joint_order_test {

using plan::joint_order;
using plan::JointCycle;
using plan::JointOrder;
using plan::JointToClose;
using plan::OrderedJoint;
using plan::Precedence;
using Kind = plan::Precedence::Kind;

namespace {

std::vector<OrderedJoint> rows_of(const std::vector<JointToClose>& joints,
                                  const std::vector<Precedence>& precedences = {}) {
  const auto result = joint_order(joints, precedences);
  REQUIRE(std::holds_alternative<JointOrder>(result));
  return std::get<JointOrder>(result).rows;
}

JointCycle cycle_of(const std::vector<JointToClose>& joints,
                    const std::vector<Precedence>& precedences) {
  const auto result = joint_order(joints, precedences);
  REQUIRE(std::holds_alternative<JointCycle>(result));
  return std::get<JointCycle>(result);
}

const std::vector<JointToClose> kThreeOut = {{"J01", 1}, {"J02", 2}, {"J03", 3}};

// A random machine: some joints came out, in any order, some did not; some precedences.
struct Machine {
  std::vector<JointToClose> joints;
  std::vector<Precedence> precedences;
};

Machine random_machine(bool may_have_cycles) {
  Machine machine;
  const int count = *rc::gen::inRange(1, 40);
  for (int i = 0; i < count; ++i) {
    const int rank = *rc::gen::inRange(-5, 60);
    machine.joints.push_back({"J" + std::to_string(i), std::nullopt});
    if (rank >= 0) machine.joints.back().came_out = rank;
  }
  const auto hidden = *rc::gen::container<std::vector<int>>(static_cast<std::size_t>(count),
                                                            rc::gen::inRange(0, 1000));
  const int pairs = *rc::gen::inRange(0, may_have_cycles ? count * 3 / 2 : count * 3);
  for (int i = 0; i < pairs; ++i) {
    auto later = static_cast<std::size_t>(*rc::gen::inRange(0, count));
    auto first = static_cast<std::size_t>(*rc::gen::inRange(0, count));
    if (!may_have_cycles) {  // along a hidden order there is none
      if (hidden[later] == hidden[first]) continue;
      if (hidden[later] < hidden[first]) std::swap(later, first);
    }
    const auto kind = *rc::gen::element(Kind::After, Kind::Covers);
    machine.precedences.push_back({machine.joints[later].code, kind, machine.joints[first].code});
  }
  return machine;
}

std::map<std::string, std::size_t> places_of(const std::vector<OrderedJoint>& rows) {
  std::map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < rows.size(); ++i) places.emplace(rows[i].code, i);
  return places;
}

// Independent of the code under test: depth first, a joint met again on its own path closes a
// cycle.
bool has_cycle(const Machine& machine) {
  std::map<std::string, std::set<std::string>> waits_for;
  for (const auto& pair : machine.precedences) waits_for[pair.code].insert(pair.first);
  std::set<std::string> on_path;
  std::set<std::string> done;
  const std::function<bool(const std::string&)> comes_round = [&](const std::string& code) {
    if (on_path.contains(code)) return true;
    if (!done.insert(code).second) return false;
    on_path.insert(code);
    for (const auto& first : waits_for[code]) {
      if (comes_round(first)) return true;
    }
    on_path.erase(code);
    return false;
  };
  return std::ranges::any_of(machine.joints,
                             [&](const auto& joint) { return comes_round(joint.code); });
}

}  // namespace

TEST_CASE("joints go back in reverse of removal", "[plan]") {
  CHECK(rows_of(kThreeOut) == std::vector<OrderedJoint>{{"J03", "came out last"},
                                                        {"J02", "reverse of removal"},
                                                        {"J01", "reverse of removal"}});
  CHECK(rows_of({}).empty());
}

TEST_CASE("what never came out stands first, equal ranks keep the order of entry", "[plan]") {
  const std::vector<JointToClose> joints = {{"A", 4}, {"B", std::nullopt}, {"C", 7},
                                            {"D", 4}, {"E", std::nullopt}, {"F", 7}};
  CHECK(rows_of(joints) == std::vector<OrderedJoint>{{"B", "never came out"},
                                                     {"E", "never came out"},
                                                     {"C", "came out last"},
                                                     {"F", "came out last"},
                                                     {"A", "reverse of removal"},
                                                     {"D", "reverse of removal"}});
}

TEST_CASE("bench work stands before all that is not, unless it has to wait", "[plan]") {
  const std::vector<JointToClose> joints = {
      {"J01", 1, false}, {"J02", 2, true}, {"J03", 3, false}, {"J04", 4, true}};
  CHECK(rows_of(joints) == std::vector<OrderedJoint>{{"J04", "bench work; came out last"},
                                                     {"J02", "bench work; reverse of removal"},
                                                     {"J03", "reverse of removal"},
                                                     {"J01", "reverse of removal"}});
  CHECK(rows_of(joints, {{"J04", Kind::After, "J03"}})[2] ==
        OrderedJoint{"J04", "bench work; came out last; waits for J03"});
}

TEST_CASE("a stated precedence overrules the removal and says so", "[plan]") {
  // J03 waits for J02, and J02 for J01: both are held back; J01 takes the first place.
  CHECK(rows_of(kThreeOut, {{"J03", Kind::After, "J02"}, {"J02", Kind::Covers, "J01"}}) ==
        std::vector<OrderedJoint>{{"J01", "reverse of removal"},
                                  {"J02", "reverse of removal; waits for J01"},
                                  {"J03", "came out last; waits for J02"}});
}

TEST_CASE("a precedence that holds anyway is named and moves nothing", "[plan]") {
  CHECK(rows_of(kThreeOut, {{"J01", Kind::After, "J03"},
                            {"J01", Kind::After, "J03"},
                            {"J01", Kind::Covers, "J02"}}) ==
        std::vector<OrderedJoint>{{"J03", "came out last"},
                                  {"J02", "reverse of removal"},
                                  {"J01", "reverse of removal; after J03; covers J02"}});
}

TEST_CASE("several joints that hold one back are all named", "[plan]") {
  CHECK(rows_of(kThreeOut, {{"J03", Kind::After, "J01"}, {"J03", Kind::Covers, "J02"}}).back() ==
        OrderedJoint{"J03", "came out last; waits for J02, J01"});
}

TEST_CASE("a precedence with an unknown joint is given back and left out", "[plan]") {
  const std::vector<Precedence> unknown = {{"J01", Kind::After, "J77"},
                                           {"J88", Kind::Covers, "J01"}};
  const auto result = joint_order(kThreeOut, unknown);
  REQUIRE(std::holds_alternative<JointOrder>(result));
  CHECK(std::get<JointOrder>(result).unknown == unknown);
  CHECK(std::get<JointOrder>(result).rows == rows_of(kThreeOut));
}

TEST_CASE("two joints of one code are refused", "[plan]") {
  CHECK_THROWS_AS(joint_order({{"J01", 1}, {"J01", 2}}, {}), failure::InputError);
}

TEST_CASE("a cycle names every joint of it in order", "[plan]") {
  CHECK(in_words(cycle_of(kThreeOut, {{"J01", Kind::After, "J03"},
                                      {"J03", Kind::Covers, "J02"},
                                      {"J02", Kind::After, "J01"}})) ==
        "J03 covers J02, J02 after J01, J01 after J03");
  CHECK(in_words(cycle_of(kThreeOut, {{"J02", Kind::After, "J02"}})) == "J02 after J02");
}

TEST_CASE("a cycle is shown by its shortest way round", "[plan]") {
  // J03 waits for J02, J02 for J01, and both J01 and J02 for J03.
  CHECK(in_words(cycle_of(kThreeOut, {{"J03", Kind::After, "J02"},
                                      {"J02", Kind::After, "J01"},
                                      {"J01", Kind::After, "J03"},
                                      {"J02", Kind::After, "J03"}})) ==
        "J03 after J02, J02 after J03");
}

TEST_CASE("every order holds every joint once and every precedence", "[plan]") {
  holds_always("random machines without a cycle", [] {
    const auto machine = random_machine(false);
    const auto result = joint_order(machine.joints, machine.precedences);
    RC_ASSERT(std::holds_alternative<JointOrder>(result));
    const auto& rows = std::get<JointOrder>(result).rows;
    const auto places = places_of(rows);
    RC_ASSERT(rows.size() == machine.joints.size());
    RC_ASSERT(places.size() == machine.joints.size());
    for (const auto& joint : machine.joints) RC_ASSERT(places.contains(joint.code));
    for (const auto& pair : machine.precedences) {
      RC_ASSERT(places.at(pair.first) < places.at(pair.code));
    }
  });
}

TEST_CASE("a joint stands before an earlier wish only where that one has to wait", "[plan]") {
  holds_always("random machines without a cycle", [] {
    const auto machine = random_machine(false);
    const auto rows = std::get<JointOrder>(joint_order(machine.joints, machine.precedences)).rows;
    const auto by_default = places_of(std::get<JointOrder>(joint_order(machine.joints, {})).rows);
    const auto places = places_of(rows);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      for (std::size_t j = i + 1; j < rows.size(); ++j) {
        if (by_default.at(rows[j].code) > by_default.at(rows[i].code)) continue;
        // rows[j] would rather stand before rows[i]; something at i or later must hold it back.
        RC_ASSERT(std::ranges::any_of(machine.precedences, [&](const auto& pair) {
          return pair.code == rows[j].code && places.at(pair.first) >= i;
        }));
        RC_ASSERT(rows[j].why.find("waits for") != std::string::npos);
      }
    }
  });
}

TEST_CASE("a cycle is found where there is one and nowhere else", "[plan]") {
  holds_always("random machines", [] {
    const auto machine = random_machine(true);
    const auto result = joint_order(machine.joints, machine.precedences);
    const auto* cycle = std::get_if<JointCycle>(&result);
    RC_CLASSIFY(cycle != nullptr, "with a cycle");
    RC_ASSERT((cycle != nullptr) == has_cycle(machine));
    if (!cycle) return;
    std::set<std::string> named;
    for (std::size_t i = 0; i < cycle->links.size(); ++i) {
      const auto& link = cycle->links[i];
      RC_ASSERT(named.insert(link.code).second);
      RC_ASSERT(link.first == cycle->links[(i + 1) % cycle->links.size()].code);
      RC_ASSERT(std::ranges::find(machine.precedences, link) != machine.precedences.end());
    }
  });
}

}  // namespace joint_order_test
