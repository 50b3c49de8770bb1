#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string>

// The built program that serves a logbook as a process of its own, to be ended and killed.
class ServedProgram {
 public:
  // It keeps what it keeps of a person in this folder.
  ServedProgram(std::string logbook, std::filesystem::path own_folder);
  ~ServedProgram();
  ServedProgram(const ServedProgram&) = delete;
  ServedProgram& operator=(const ServedProgram&) = delete;

  // Starts it at the port that it had before, and waits until it answers.
  void serve();

  // Ends it as Ctrl-C does, or as nothing can be prepared for (SIGKILL).
  void cut();
  void kill();

  [[nodiscard]] int port() const { return port_; }
  // The code for one phone that it showed when it began.
  [[nodiscard]] const std::string& code() const { return code_; }

 private:
  [[nodiscard]] bool started();
  void end_by(int signal);

  std::string logbook_;
  std::filesystem::path own_folder_;
  int port_ = 0;
  std::string code_;
  pid_t process_ = -1;
  int output_ = -1;
};
