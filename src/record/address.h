#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace record {

// The most positions one joint can have; a guard against a slipped key, not a design limit.
inline constexpr int kMostPositions = 10'000;

// The longest code, in bytes.
inline constexpr std::size_t kLongestCode = 32;

// A letter, then letters, digits, hyphens or underscores, kLongestCode at most.
[[nodiscard]] bool is_code(std::string_view text);

// A code as given: a letter, then letters, digits, hyphens or underscores, 32 bytes at most.
// InputError otherwise, naming what it is for ("a joint code") and such a one ("J06").
[[nodiscard]] std::string read_code(std::string_view text, std::string_view what,
                                    std::string_view example);

// A joint code: "J06", "case-split".
[[nodiscard]] std::string read_joint_code(std::string_view text);

// True for the same code whatever the case in which it was typed.
[[nodiscard]] bool same_code(std::string_view a, std::string_view b);

// The code in lower case: equal for codes that are the same.
[[nodiscard]] std::string folded_code(std::string_view code);

// Positions of one joint as typed: "J06/03", "J06/1-8", "J06/1,4,13", "J06/1-4,9".
struct Address {
  std::string joint;
  std::vector<int> positions;  // rising, each once; empty where only the joint was named
  bool in_order = false;       // as read_address_in_order has them, in the order typed
};

// InputError names what is wrong: no joint, position 0, a range that falls, a position twice.
[[nodiscard]] Address read_address(std::string_view text);

// The same, and where each is named by itself in the order typed: "J06/4,3,2,1" is one after the
// other, while "J06/1-4" tells which, and no order.
[[nodiscard]] Address read_address_in_order(std::string_view text);

// "J06/03": one position the way the program writes it everywhere.
[[nodiscard]] std::string write_address(std::string_view joint, int position);

// "J06/1-4,9": several positions of it; one alone is written as above.
[[nodiscard]] std::string write_address(std::string_view joint, const std::vector<int>& positions);

// "1-4,9": rising positions with runs drawn together.
[[nodiscard]] std::string write_positions(const std::vector<int>& positions);

}  // namespace record
