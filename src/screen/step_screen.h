#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "progress/reassembly.h"
#include "screen/large_text.h"
#include "words/text.h"

namespace screen {

// The screen of one step for the guided way. The first line says it all: position, pass, wrench and
// setting. Below it what has to be seen to before the pull: whether the wrench is to be set anew
// and what it was left at by the record, the condition, a fastener that has to be a new one. Then
// position and setting large, where the next three are, and the keys. The next ones are those that
// the guide leads to: of this joint alone, or of the whole job.
enum class Guided { JointAlone, WholeJob };
[[nodiscard]] std::string step_screen(const progress::Step& step,
                                      const progress::Reassembly& reassembly, Guided guided,
                                      LargeLetters letters, const words::Page& page);

// The open steps that the guide leads to from the next one on, at most so many:
// [{"joint","holds","position","place","of","pass","passes","says","kind","wrench"|null,
// "setting"|null,"unit"|null,"angle_deg"|null,"target_nm"|null,"asks_for_look","before":[what has
// to be seen to before the pull],"final_when"|null}]. What is said of the wrench takes each step
// for done as it stands here.
[[nodiscard]] nlohmann::ordered_json steps_json(const progress::Reassembly& reassembly,
                                                const std::optional<std::string>& joint,
                                                std::size_t most);

// The keys of a step in a line, and what each of them means.
[[nodiscard]] std::string step_keys_in_short(const words::Page& page);
[[nodiscard]] std::string step_keys(const words::Page& page);

// The joint as it is seen, this position marked.
[[nodiscard]] std::string step_map(const progress::Step& step, const words::Page& page);

}  // namespace screen
