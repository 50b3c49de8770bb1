#pragma once

#include "record/as_typed_check.h"
#include "record/content.h"

namespace record {

// What a line says has to be of use to whoever computes with it, whatever wrote it: no value beside
// the text that it was typed as (as_typed_check.h), and no name, size or order that no door takes.
// InputError otherwise. What hangs on other lines is for the audit.
template <class Kind>
void check_content(const Kind& kind) {
  check_as_typed(kind);
}
template <>
void check_content(const Joint& joint);
template <>
void check_content(const Removal& removal);

}  // namespace record
