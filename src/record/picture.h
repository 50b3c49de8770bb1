#pragma once

#include <string>
#include <string_view>

#include "record/photograph.h"

namespace record {

// A picture as it is kept: what it shows, and nothing of who took it, where and with what.
struct Picture {
  PictureFormat format = PictureFormat::Jpeg;
  int width = 0;  // pixels, before it is turned upright
  int height = 0;
  std::string bytes;
};

// The picture in these bytes, whatever a file with them is called: JPEG (ITU-T T.81 annex B), PNG
// (ISO/IEC 15948) or WebP (RFC 9649). Its segments or chunks are read one after the other to its
// end, and of them those are kept that say how it looks: its points, the colours that they mean,
// and which way up it is. All else is left out: place, time and device (Exif, XMP), comments,
// thumbnails, and whatever stands behind its end. A picture that was read so before is the same
// byte for byte.
// InputError, saying what was found, for any other format; for one that breaks off or contradicts
// itself; for one of no points, longer on a side than kMostPhotographPixels, of more than
// kMostPhotographBytes or of more points than a browser takes (100 million); and for one that
// moves.
[[nodiscard]] Picture read_picture(std::string_view bytes);

}  // namespace record
