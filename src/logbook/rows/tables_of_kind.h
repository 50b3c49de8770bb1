#pragma once

#include <string_view>
#include <vector>

namespace logbook {

// Whether a line of this kind (its word) that has rows in these tables, and in no others, has what
// its kind needs and nothing of another: a removal its row and its positions, a joint no row of a
// wrench. False for a word that is no kind.
[[nodiscard]] bool are_tables_of(std::string_view kind,
                                 const std::vector<std::string_view>& tables);

}  // namespace logbook
