#include "fuzz/target.h"

namespace fuzz {

const std::vector<Target>& targets() {
  static const std::vector<Target> all = {{"torque", torque},
                                          {"length", length},
                                          {"specification", specification},
                                          {"readings", readings},
                                          {"shouted_line", shouted_line},
                                          {"address", address},
                                          {"layout", layout},
                                          {"csv", csv},
                                          {"json", json},
                                          {"picture", picture},
                                          {"deed", deed},
                                          {"logbook_file", logbook_file}};
  return all;
}

}  // namespace fuzz
