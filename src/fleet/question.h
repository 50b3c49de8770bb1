#pragma once

#include <string_view>
#include <vector>

namespace fleet {

// A column of the text answer, made of one or more columns of the view.
struct AnswerColumn {
  enum class How {
    Text,       // as it is; the second in brackets behind it, where there is one
    Number,     // rounded
    Place,      // joint and position: J06/03
    Places,     // joint and positions: J06/1-4
    Torque,     // N·m and its uncertainty: 48.8 ±3.4
    Specified,  // N·m with its limits: 80 (72..88)
    Between,    // a number, and from where to where it may be: 0.98 (0.95..1.01)
    Moment,     // in the local zone
    Counter,    // a reading of the machine's counter, and its unit
    Angle,      // degrees
  };
  std::string_view heading;
  How how = How::Text;
  std::vector<std::string_view> columns;
};

// A question that is asked of the fleet: a view of schema/postgres/, for the program and any other
// client of the server.
struct Question {
  std::string_view word;    // typed for it, "by-size"
  std::string_view view;    // in the schema fleet
  std::string_view order;   // a total one, as behind ORDER BY
  std::string_view says;    // what it answers, in a few words
  std::string_view row;     // what a row is
  std::string_view rows;    // and several
  bool of_machines = true;  // each row is of one machine
  std::vector<AnswerColumn> shown;
};

// In the order in which they are listed.
[[nodiscard]] const std::vector<Question>& questions();

// UsageError for a word that is none.
[[nodiscard]] const Question& question_named(std::string_view word);

}  // namespace fleet
