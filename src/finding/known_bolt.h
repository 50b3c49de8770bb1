#pragma once

#include <optional>

#include "fastener/grade.h"
#include "fastener/strength.h"
#include "fastener/thread.h"
#include "record/joint.h"

namespace finding {

// The fasteners of a joint where enough is known of them to compute with.
struct KnownBolt {
  fastener::Thread thread;
  fastener::Grade grade;
  fastener::Strength strength;
};

// The thread of its fasteners; nothing where the size cannot be read.
[[nodiscard]] std::optional<fastener::Thread> known_thread(const record::Joint& joint);

// Nothing where the size cannot be read, or the grade is not known or does not exist at this size.
[[nodiscard]] std::optional<KnownBolt> known_bolt(const record::Joint& joint);

}  // namespace finding
