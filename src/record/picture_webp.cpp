#include <fmt/format.h>

#include <optional>

#include "quantity/number_text.h"
#include "record/picture_bytes.h"
#include "record/picture_formats.h"

namespace record {
namespace {

using namespace std::string_view_literals;

// Bits of the extended header (RFC 9649 section 2.7.1).
constexpr std::uint32_t kHasProfile = 0x20;
constexpr std::uint32_t kHasAlpha = 0x10;
constexpr std::uint32_t kHasExif = 0x08;
constexpr std::uint32_t kMoves = 0x02;

struct WebpSides {
  int width = 0;
  int height = 0;
  bool operator==(const WebpSides&) const = default;
};

std::string webp_chunk(std::string_view type, std::string_view data) {
  auto chunk = std::string(type) + low_first(static_cast<std::uint32_t>(data.size()), 4);
  chunk.append(data);
  if (data.size() % 2 != 0) chunk += '\0';
  return chunk;
}

// The header of a key frame (RFC 6386 section 9.1).
WebpSides sides_of_lossy(std::string_view data) {
  PictureBytes frame(data);
  const auto tag = frame.low_first(3);
  if ((tag & 1U) != 0 || frame.take(3) != "\x9D\x01\x2A"sv) {
    refuse_picture("does not begin with a whole picture");
  }
  constexpr std::uint32_t kSide = 0x3FFF;
  const auto width = frame.low_first(2) & kSide;
  const auto height = frame.low_first(2) & kSide;
  return {static_cast<int>(width), static_cast<int>(height)};
}

// RFC 9649 section 3.4.
WebpSides sides_of_lossless(std::string_view data) {
  PictureBytes header(data);
  if (header.low_first(1) != 0x2F) refuse_picture("does not begin with a whole picture");
  const auto bits = header.low_first(4);
  constexpr std::uint32_t kSide = 0x3FFF;
  constexpr std::uint32_t kVersion = 29;
  if (bits >> kVersion != 0) refuse_picture("is a WebP of a kind that browsers do not show");
  return {static_cast<int>(bits & kSide) + 1, static_cast<int>(bits >> 14U & kSide) + 1};
}

class Webp {
 public:
  explicit Webp(std::string_view bytes) : bytes_(whole(bytes)) { (void)bytes_.take(4); }

  Picture read() {
    for (bool is_first = true; !bytes_.is_empty(); is_first = false) {
      const auto type = bytes_.take(4);
      const auto length = bytes_.low_first(4);
      const auto data = bytes_.take(length);
      if (length % 2 != 0) (void)bytes_.take(1);
      take(type, data, is_first);
    }
    if (!shown_) refuse_picture("ends before its first point");
    if (canvas_ && *canvas_ != *shown_) refuse_picture("says twice how large it is");
    Picture picture{PictureFormat::WebP, shown_->width, shown_->height, {}};
    const auto chunks = canvas_ ? extended() : kept_;
    picture.bytes = "RIFF" + low_first(static_cast<std::uint32_t>(chunks.size()) + 4, 4) + "WEBP";
    picture.bytes += chunks;
    return picture;
  }

 private:
  // As far as the file says that it goes.
  static std::string_view whole(std::string_view bytes) {
    PictureBytes file(bytes.substr(4));
    const auto length = file.low_first(4);
    return file.take(length);
  }

  void take(std::string_view type, std::string_view data, bool is_first) {
    if (type == "VP8X"sv && is_first) return take_extended(data);
    if (type == "ANIM"sv || type == "ANMF"sv) refuse_picture("moves");
    if (type == "VP8 "sv || type == "VP8L"sv) {
      if (shown_) refuse_picture("holds more than one picture");
      shown_ = type == "VP8 "sv ? sides_of_lossy(data) : sides_of_lossless(data);
    } else if (type == "EXIF"sv) {
      orientation_ = orientation_in(data.starts_with("Exif\0\0"sv) ? data.substr(6) : data);
      return;
    } else if (type == "ICCP"sv && canvas_) {
      has_profile_ = true;
    } else if (type != "ALPH"sv || !canvas_) {
      return;
    }
    kept_ += webp_chunk(type, data);
  }

  void take_extended(std::string_view data) {
    PictureBytes header(data);
    flags_ = header.low_first(4);
    const auto width = header.low_first(3);
    const auto height = header.low_first(3);
    if ((flags_ & kMoves) != 0) refuse_picture("moves");
    canvas_ = WebpSides{static_cast<int>(width) + 1, static_cast<int>(height) + 1};
  }

  // With a header that names what is kept.
  [[nodiscard]] std::string extended() const {
    const auto flags = (flags_ & kHasAlpha) | (has_profile_ ? kHasProfile : 0) |
                       (orientation_ != 1 ? kHasExif : 0);
    auto chunks = webp_chunk(
        "VP8X", low_first(flags, 4) + low_first(static_cast<std::uint32_t>(canvas_->width) - 1, 3) +
                    low_first(static_cast<std::uint32_t>(canvas_->height) - 1, 3));
    chunks += kept_;
    if (orientation_ != 1) chunks += webp_chunk("EXIF", exif_with(orientation_));
    return chunks;
  }

  PictureBytes bytes_;
  std::uint32_t flags_ = 0;
  std::optional<WebpSides> canvas_;  // where it has an extended header
  std::optional<WebpSides> shown_;   // of the picture itself
  bool has_profile_ = false;
  int orientation_ = 1;
  std::string kept_;
};

}  // namespace

Picture read_webp(std::string_view bytes) { return Webp(bytes).read(); }

}  // namespace record
