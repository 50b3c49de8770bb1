#include "words/photograph_in_words.h"

#include <fmt/format.h>

#include "words/short_hash.h"

namespace words {
namespace {

std::string_view name_of(record::PictureFormat format) {
  switch (format) {
    case record::PictureFormat::Jpeg:
      return "JPEG";
    case record::PictureFormat::Png:
      return "PNG";
    case record::PictureFormat::WebP:
      return "WebP";
  }
  return "";
}

}  // namespace

std::string picture_in_words(const record::Photograph& photograph) {
  constexpr std::int64_t kKibibyte = 1024;
  return fmt::format("{}, {} by {}, {} KiB, SHA-256 {}", name_of(photograph.format),
                     photograph.width, photograph.height,
                     (photograph.length + kKibibyte - 1) / kKibibyte,
                     short_hash(photograph.sha256));
}

}  // namespace words
