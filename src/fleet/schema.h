#pragma once

#include <string_view>
#include <vector>

namespace fleet {

// One file of schema/postgres/, by its number. A step carries no BEGIN and no COMMIT.
struct SchemaStep {
  int version;
  std::string_view sql;
};

// All of them, embedded in the program, rising by one from 1.
[[nodiscard]] const std::vector<SchemaStep>& embedded_steps();

}  // namespace fleet
