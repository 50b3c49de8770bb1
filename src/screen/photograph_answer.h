#pragma once

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>
#include <vector>

#include "record/entry.h"
#include "record/photograph.h"
#include "words/text.h"

namespace screen {

using ShownPhotograph = record::Entry<record::Photograph>;

// "  line 14, J06/03: washer marks, KB, 2026-03-02 08:15; JPEG, 2000 by 1500, ...", one after the
// other.
[[nodiscard]] std::string photograph_lines(std::span<const ShownPhotograph* const> photographs,
                                           const words::Page& page);

// The photographs that there are, and how one is got out again.
[[nodiscard]] std::string photographs_text(std::span<const ShownPhotograph* const> photographs,
                                           const words::Page& page);

// {"photographs":[{"line","id","of","joint"|null,"positions","deviation"|null,"note","format",
// "width","height","bytes","sha256","by","done_at"}]}
[[nodiscard]] std::string photographs_json(std::span<const ShownPhotograph* const> photographs);
[[nodiscard]] nlohmann::ordered_json photograph_rows_json(
    std::span<const ShownPhotograph* const> photographs);

}  // namespace screen
