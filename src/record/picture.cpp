#include "record/picture.h"

#include <fmt/format.h>

#include <cstdint>

#include "quantity/number_text.h"
#include "record/picture_bytes.h"
#include "record/picture_formats.h"

namespace record {
namespace {

using namespace std::string_view_literals;

// A browser takes four bytes for each point.
constexpr std::int64_t kMostPoints = 100'000'000;

void check_size(std::string_view bytes) {
  if (bytes.empty()) refuse_picture("is empty");
  if (bytes.size() <= kMostPhotographBytes) return;
  refuse_picture(
      fmt::format("is larger than {} MiB: make it smaller, 2000 points on its long side "
                  "show all that is needed",
                  kMostPhotographBytes >> 20U));
}

void check_sides(const Picture& picture) {
  if (picture.width == 0 || picture.height == 0) refuse_picture("has no points");
  if (picture.width <= kMostPhotographPixels && picture.height <= kMostPhotographPixels &&
      std::int64_t{picture.width} * picture.height <= kMostPoints) {
    return;
  }
  refuse_picture(
      fmt::format("says that it is {} by {} points, and at most {} on a side and {} "
                  "million in all are taken: make it smaller",
                  picture.width, picture.height, kMostPhotographPixels, kMostPoints / 1'000'000));
}

Picture read_any(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xD8\xFF"sv)) return read_jpeg(bytes);
  if (bytes.starts_with("\x89PNG\r\n\x1A\n"sv)) return read_png(bytes);
  if (bytes.starts_with("RIFF"sv) && bytes.substr(0, 12).ends_with("WEBP"sv)) {
    return read_webp(bytes);
  }
  if (bytes.size() > 8 && bytes.substr(4, 4) == "ftyp"sv) {
    refuse_picture(
        "is HEIC, AVIF or a film, which not every browser shows (a phone can be set to "
        "take JPEG, named most compatible)");
  }
  refuse_picture(fmt::format("is none, whatever its name: it begins with {}",
                             quantity::quoted(bytes.substr(0, 12))));
}

}  // namespace

Picture read_picture(std::string_view bytes) {
  check_size(bytes);
  auto picture = read_any(bytes);
  check_sides(picture);
  return picture;
}

}  // namespace record
