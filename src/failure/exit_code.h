#pragma once

namespace failure {

// What the program tells the shell.
enum ExitCode : int {
  kDone = 0,
  kNotInOrder = 1,      // understood, and the answer is no: holds open, not found, refused
  kWrongUsage = 2,      // wrong usage or bad input; nothing was written
  kLogbookTrouble = 3,  // the logbook could not be opened, read or written; nothing was lost
  kOurFault = 4,        // a fault of this program
};

}  // namespace failure
