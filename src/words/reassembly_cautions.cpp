#include "words/reassembly_cautions.h"

namespace words {

std::string_view sequence_cautions() {
  return "Before any of this: power isolated, waited out and proved dead; stored energy locked "
         "out; the "
         "load on stands and chocks. Brake, steering, lifting and pressure joints need the maker's "
         "procedure and a second person. The maker's manual and local rules outrank this list.";
}

}  // namespace words
