#include "record/removal.h"

#include "record/as_typed.h"

namespace record {

std::string other_length_text(const Removal& removal) {
  return as_typed(removal.other_length_typed, removal.other_length);
}

}  // namespace record
