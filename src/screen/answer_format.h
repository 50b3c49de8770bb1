#pragma once

#include <string_view>

namespace screen {

// What an answer with --json is: its first two members say so. The version of a format rises when
// something goes that a script may rest on: a member is taken away or renamed, or comes to hold
// another type, unit, word or meaning. A member that is added leaves it as it is. What each format
// holds is said in schema/json/, in the file of the command that answers with it.
struct AnswerFormat {
  std::string_view name;
  int version;
};

inline constexpr AnswerFormat kAdapterFormat{"boltwitness adapter", 1};
inline constexpr AnswerFormat kAuditFormat{"boltwitness audit", 1};
inline constexpr AnswerFormat kBackupFormat{"boltwitness backup", 1};
inline constexpr AnswerFormat kBoltFormat{"boltwitness bolt", 1};
inline constexpr AnswerFormat kComparisonFormat{"boltwitness comparison", 1};
inline constexpr AnswerFormat kDriftFormat{"boltwitness drift", 1};
inline constexpr AnswerFormat kFileWrittenFormat{"boltwitness file written", 1};
inline constexpr AnswerFormat kFleetAnswerFormat{"boltwitness fleet answer", 1};
inline constexpr AnswerFormat kFleetLoadedFormat{"boltwitness fleet loaded", 1};
inline constexpr AnswerFormat kFleetQuestionsFormat{"boltwitness fleet questions", 1};
inline constexpr AnswerFormat kFluidsFormat{"boltwitness fluids", 1};
inline constexpr AnswerFormat kHistoryFormat{"boltwitness history", 1};
inline constexpr AnswerFormat kHoldPointsFormat{"boltwitness hold points", 1};
inline constexpr AnswerFormat kImportFormat{"boltwitness import", 1};
inline constexpr AnswerFormat kItemsFormat{"boltwitness items", 1};
inline constexpr AnswerFormat kJointFormat{"boltwitness joint", 1};
inline constexpr AnswerFormat kJointsFormat{"boltwitness joints", 1};
inline constexpr AnswerFormat kLineFormat{"boltwitness line", 1};  // alone, of JSON Lines
inline constexpr AnswerFormat kLineFoundFormat{"boltwitness line found", 1};
inline constexpr AnswerFormat kLineUnreadableFormat{"boltwitness line unreadable", 1};
inline constexpr AnswerFormat kLinesFoundFormat{"boltwitness lines found", 1};
inline constexpr AnswerFormat kLinesWrittenFormat{"boltwitness lines written", 1};
inline constexpr AnswerFormat kLooksDueFormat{"boltwitness looks due", 1};
inline constexpr AnswerFormat kManualPageFormat{"boltwitness manual page", 1};
inline constexpr AnswerFormat kMergeFormat{"boltwitness merge", 1};
inline constexpr AnswerFormat kNeighbourLossesFormat{"boltwitness losses to neighbours", 1};
inline constexpr AnswerFormat kNewFastenersFormat{"boltwitness new fasteners", 1};
inline constexpr AnswerFormat kNextSettingFormat{"boltwitness next setting", 1};
inline constexpr AnswerFormat kPhonesForgottenFormat{"boltwitness phones forgotten", 1};
inline constexpr AnswerFormat kPhonesFormat{"boltwitness phones", 1};
inline constexpr AnswerFormat kPhotographsFormat{"boltwitness photographs", 1};
inline constexpr AnswerFormat kPositionFormat{"boltwitness position", 1};
inline constexpr AnswerFormat kProgressFormat{"boltwitness progress", 1};
inline constexpr AnswerFormat kSequenceFormat{"boltwitness sequence", 1};
inline constexpr AnswerFormat kSignatureFormat{"boltwitness signature", 1};
inline constexpr AnswerFormat kStatusFormat{"boltwitness status", 1};
inline constexpr AnswerFormat kStripeTurnedFormat{"boltwitness stripe turned", 1};
inline constexpr AnswerFormat kTopicsFormat{"boltwitness topics", 1};
inline constexpr AnswerFormat kTorqueFormat{"boltwitness torque", 1};
inline constexpr AnswerFormat kVerificationFormat{"boltwitness verification", 1};
inline constexpr AnswerFormat kWrenchesFormat{"boltwitness wrenches", 1};

}  // namespace screen
