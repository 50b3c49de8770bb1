#include "fastener/preload_by_stretch.h"

#include "failure/failure.h"
#include "fastener/lost_preload.h"

namespace fastener {

PreloadBand preload_by_stretch(const Thread& thread, quantity::Length under_head,
                               quantity::Length stretch) {
  if (stretch.in_millimetres() <= 0.0) {
    throw failure::InputError("expected a measured stretch above zero");
  }
  const auto stiffness = assumed_stiffness(thread, under_head);
  return {stiffness.softest * stretch, stiffness.stiffest * stretch};
}

}  // namespace fastener
