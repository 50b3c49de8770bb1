#pragma once

#include <string_view>

#include "record/picture.h"

namespace record {

// The readers of the formats; each is given bytes that begin as its format does, and reads them as
// read_picture says.
[[nodiscard]] Picture read_jpeg(std::string_view bytes);
[[nodiscard]] Picture read_png(std::string_view bytes);
[[nodiscard]] Picture read_webp(std::string_view bytes);

}  // namespace record
