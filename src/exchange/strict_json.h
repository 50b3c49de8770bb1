#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace exchange {

// Is given an element of an array of the outermost object: the name of that member, the place of
// the element in it from 0, and the element, which is not kept.
using TakeElement = std::function<void(const std::string& array, std::size_t place,
                                       const nlohmann::ordered_json& element)>;

// Reads the whole text as JSON (RFC 8259) in one pass. Elements of the arrays that are named are
// handed over one by one and left out of what is returned, so that a copy of any size takes no more
// room than its longest element. InputError, with line and column, where it breaks off or goes
// wrong; for a number beyond what can be kept; where it is nested deeper, or an object has more
// members or more values belong together, than in anything that is read here; and where a name
// stands twice in one object, which is allowed there but leaves open which of the two counts.
[[nodiscard]] nlohmann::ordered_json read_strict_json(std::string_view text,
                                                      const std::vector<std::string>& arrays,
                                                      const TakeElement& take);

}  // namespace exchange
