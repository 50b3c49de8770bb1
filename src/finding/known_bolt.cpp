#include "finding/known_bolt.h"

#include "failure/failure.h"
#include "fastener/thread_text.h"

namespace finding {

std::optional<fastener::Thread> known_thread(const record::Joint& joint) {
  try {
    return fastener::read_thread(joint.size);
  } catch (const failure::InputError&) {
    return std::nullopt;
  }
}

std::optional<KnownBolt> known_bolt(const record::Joint& joint) {
  const auto thread = known_thread(joint);
  const auto grade = fastener::read_grade(joint.grade);
  if (!thread || !grade) return std::nullopt;
  const auto strength = fastener::strength_of(*grade, *thread);
  if (!strength) return std::nullopt;
  return KnownBolt{*thread, *grade, *strength};
}

}  // namespace finding
