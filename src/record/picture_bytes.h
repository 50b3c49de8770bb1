#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace record {

// Bytes of a picture, taken one after the other. InputError where there are fewer than asked for.
class PictureBytes {
 public:
  explicit PictureBytes(std::string_view bytes) : rest_(bytes) {}

  [[nodiscard]] bool is_empty() const { return rest_.empty(); }
  [[nodiscard]] std::string_view rest() const { return rest_; }
  [[nodiscard]] std::string_view take(std::size_t count);

  // The highest byte first, as JPEG and PNG have them, and the lowest first, as WebP does.
  [[nodiscard]] std::uint32_t high_first(std::size_t count);
  [[nodiscard]] std::uint32_t low_first(std::size_t count);

 private:
  std::string_view rest_;
};

// The same the other way.
[[nodiscard]] std::string high_first(std::uint32_t number, std::size_t count);
[[nodiscard]] std::string low_first(std::uint32_t number, std::size_t count);

// InputError that names what is wrong with a picture.
[[noreturn]] void refuse_picture(const std::string& found);

// Which way up a picture is, 2 to 8 as Exif numbers it (tag 274; 1 is as it stands), out of the
// TIFF structure of its Exif data (TIFF 6.0 section 2): all of it that is kept. 1 where it does not
// say.
[[nodiscard]] int orientation_in(std::string_view exif);

// Such a structure with nothing else in it.
[[nodiscard]] std::string exif_with(int orientation);

}  // namespace record
