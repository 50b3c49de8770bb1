#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fastener/lost_preload.h"
#include "progress/reassembly.h"
#include "quantity/angle.h"

namespace progress {

// What is done with a fastener whose final stripe was found turned, in this order; common practice,
// no source.
inline constexpr std::string_view kAfterATurn =
    "slacken it, look at thread, face and seat, bring it to its final value, then draw a new "
    "stripe";

// The line that slackened this position after its final stripe was found turned, where no line
// tells yet what was seen of it; nothing where none is waited for.
[[nodiscard]] const record::Entry<record::Tightening>* slackened_unseen(const Progress& progress,
                                                                        std::string_view joint,
                                                                        int position);

// The command that enters that line anew with what was seen.
[[nodiscard]] std::string tell_what_was_seen(const record::Entry<record::Tightening>& slackened);

// Why no final stripe may be drawn on these positions now, in one sentence that says what to do
// instead; empty where one may on each. A stripe says that the final value stands: so not before it
// is reached, and not over one that was found turned, which is slackened, looked at and brought
// there again.
// So it is for a stripe drawn at this moment.
[[nodiscard]] std::string why_no_stripe(const Reassembly& reassembly, std::string_view joint,
                                        const std::vector<int>& positions, record::Moment done_at);

// The final stripe that this position had at this moment: the last drawn before it, where the
// position did not come out in between. Nothing where it had none.
[[nodiscard]] const record::Entry<record::FinalStripe>* stripe_at(const record::Job& job,
                                                                  std::string_view joint,
                                                                  int position,
                                                                  record::Moment moment);

// What a final stripe that has turned says about the preload of each of its fasteners.
struct TurnedStripe {
  fastener::PreloadBand lost;          // fastener/lost_preload.h
  fastener::AssumedStretch stretch;    // what it was computed with
  std::optional<quantity::Torque> at;  // the torque that they were last brought to
  // What that torque makes over the friction band of the condition; nothing where they were not all
  // brought to one torque, or an angle came after it, or no band is known.
  std::optional<fastener::PreloadBand> had;
  fastener::Condition condition = fastener::Condition::AsReceived;
};

// Nothing where the length of the joint's fasteners is not known.
[[nodiscard]] std::optional<TurnedStripe> turned_stripe(const Reassembly& reassembly,
                                                        const record::Recheck& recheck);

}  // namespace progress
