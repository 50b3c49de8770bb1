#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace terminal {

// Writes a file that was not there before, whole and on the disk when this returns, or not at all.
// Refusal where something of that name is there already; LogbookError where it cannot be written,
// as on a full disk.
// `fill` hands over what stands in it, piece after piece.
using Piece = std::function<void(std::string_view)>;
void write_new_file(const std::string& path, const std::function<void(const Piece&)>& fill);

}  // namespace terminal
