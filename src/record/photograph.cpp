#include "record/photograph.h"

#include "record/address.h"

namespace record {

std::string subject_of(const Photograph& photograph) {
  if (!photograph.deviation.empty()) return photograph.deviation;
  if (photograph.joint.empty()) return std::string(kWholeMachine);
  return photograph.positions.empty() ? photograph.joint
                                      : write_address(photograph.joint, photograph.positions);
}

std::string_view media_type_of(PictureFormat format) {
  switch (format) {
    case PictureFormat::Jpeg:
      return "image/jpeg";
    case PictureFormat::Png:
      return "image/png";
    case PictureFormat::WebP:
      return "image/webp";
  }
  return "";
}

std::string_view ending_of(PictureFormat format) {
  return format == PictureFormat::Jpeg ? "jpg" : word_of(format);
}

}  // namespace record
