#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "record/in_job.h"
#include "record/word.h"

namespace record {

// How the bytes of a photograph are laid out, told by themselves (record/picture.h).
enum class PictureFormat { Jpeg, Png, WebP };
template <>
struct Vocabulary<PictureFormat> {
  static constexpr std::array kWords = {Word{PictureFormat::Jpeg, "jpeg"},
                                        Word{PictureFormat::Png, "png"},
                                        Word{PictureFormat::WebP, "webp"}};
};

// The most bytes that one photograph has, and the longest that one of its sides is, in pixels.
inline constexpr std::size_t kMostPhotographBytes = std::size_t{8} << 20;
inline constexpr int kMostPhotographPixels = 16'384;

// A photograph of the machine, of a joint or some of its positions, or of a deviation. Its bytes
// stand apart, under their SHA-256, and are read by whoever shows them alone.
struct Photograph {
  std::string joint;           // empty where it is about none: of the machine
  std::vector<int> positions;  // rising; empty where it is about the whole joint, or about none
  std::string deviation;       // its id in the audit; empty where it is of none
  std::string note;            // may be empty
  PictureFormat format = PictureFormat::Jpeg;
  int width = 0;  // pixels, before it is turned upright
  int height = 0;
  std::int64_t length = 0;  // bytes
  std::string sha256;       // of the bytes, as 64 hexadecimal digits
};
template <>
struct InJob<Photograph> {
  std::vector<Entry<Photograph>> photographs;
};

// The word for the whole machine where a joint or position may stand.
inline constexpr std::string_view kWholeMachine = "machine";

// What it is of: "J06/03", "J06/1-4", "J06", the id of a deviation, or kWholeMachine.
[[nodiscard]] std::string subject_of(const Photograph& photograph);

// "image/jpeg", as RFC 2046 and its registry name it.
[[nodiscard]] std::string_view media_type_of(PictureFormat format);

// How the name of a file with such a picture ends: "jpg".
[[nodiscard]] std::string_view ending_of(PictureFormat format);

}  // namespace record
