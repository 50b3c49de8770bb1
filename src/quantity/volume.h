#pragma once

#include "quantity/scalar.h"

namespace quantity {

// A volume, kept in millilitres. US customary volumes are exact: 1 US gal = 231 in³ =
// 3785.411784 mL, 1 US qt a quarter of it, 1 US pt an eighth (NIST SP 811 Appendix B; the inch of
// 25.4 mm makes them exact).
class Volume : public Scalar<Volume> {
 public:
  [[nodiscard]] static Volume millilitres(double value) { return Volume(value); }
  [[nodiscard]] double in_millilitres() const { return base(); }

 private:
  using Scalar::Scalar;
  friend class Scalar<Volume>;
};

}  // namespace quantity
