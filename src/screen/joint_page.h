#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "audit/audit.h"
#include "progress/progress.h"
#include "screen/photograph_answer.h"
#include "words/text.h"

namespace screen {

// What is looked up about one joint.
struct JointPage {
  const record::Job& job;
  const finding::JointState& joint;
  const audit::Audit& audit;
  const progress::Progress* progress = nullptr;  // nothing where no plan can be made
  std::string no_plan;                           // why not
  std::string in_short = {};  // where its fasteners are, what comes next, what is to be seen to
  bool whole = true;          // with no list cut
};

// The joint on one screen: how it stands, what it is and what is specified, a map of its positions,
// the bolt, found against tolerance, what the audit says of it with the decisions, how far it is
// back together.
[[nodiscard]] std::string joint_page_text(const JointPage& page_of, const words::Page& page);
// How it stands alone: "J06: where D1; next TW2 at 40 N·m; see to 5 found-low".
[[nodiscard]] std::string joint_in_short(const JointPage& page_of, const words::Page& page);

// {"joint":{"code","holds","size","length_mm"|null,"grade","into","engaged_mm"|null,"seat",
// "face_mm"|null,"parts":[a sentence each],"count","layout","one_time","critical"},
// "bolt": as joint_bolt_json,"positions":[compare's row, and "x","y","passes_done","passes",
// "final_value","striped"],"deviations":[as audit --json],"photographs":[as photo --json],
// "no_plan"|null}
[[nodiscard]] std::string joint_page_json(const JointPage& page_of);

// What the audit says of the joint, of one position and of the joint as a whole where one is given.
[[nodiscard]] std::vector<const audit::Deviation*> deviations_of(const JointPage& page_of,
                                                                 std::optional<int> position);
[[nodiscard]] std::string deviations_text(const JointPage& page_of, std::optional<int> position,
                                          const words::Page& page);

// The photographs of the joint, or of these of its positions and of the joint as a whole; as text
// under a heading of their own, empty where there is none.
[[nodiscard]] std::vector<const ShownPhotograph*> photographs_of(const JointPage& page_of,
                                                                 const std::vector<int>& positions);
[[nodiscard]] std::string photographs_section(const JointPage& page_of,
                                              const std::vector<int>& positions,
                                              const words::Page& page);

// What a pass asks for, and whether it only checks: "60 N·m", "check at 80 N·m".
[[nodiscard]] std::string round_text(const progress::Step& step);

// A position as joint_page_json lists it, and where it lies.
[[nodiscard]] nlohmann::ordered_json position_json(const JointPage& page_of,
                                                   const finding::PositionState& position,
                                                   const record::Point& point);

}  // namespace screen
