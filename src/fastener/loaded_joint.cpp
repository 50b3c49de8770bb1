#include "fastener/loaded_joint.h"

#include "fastener/thread_geometry.h"

namespace fastener {

using quantity::Force;

quantity::Stress bolt_stress(const Thread& thread, Force preload, double bolt_share, Force load) {
  return (load * bolt_share + preload) / stress_area(thread);
}

double load_factor(const Thread& thread, const Strength& strength, Force preload, double bolt_share,
                   Force load) {
  return (load_at(proof_basis(strength).stress, thread) - preload) / (load * bolt_share);
}

double separation_factor(Force preload, double bolt_share, Force load) {
  return preload / (load * (1.0 - bolt_share));
}

}  // namespace fastener
