#include "phone/served_program.h"

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <stdexcept>
#include <thread>
#include <utility>
#include <vector>

#include "support/places.h"

namespace {

// What stands between two texts; empty where they do not.
std::string between(const std::string& text, const std::string& before, char after) {
  const auto at = text.find(before);
  if (at == std::string::npos) return {};
  const auto from = at + before.size();
  return text.substr(from, text.find(after, from) - from);
}

}  // namespace

ServedProgram::ServedProgram(std::string logbook, std::filesystem::path own_folder)
    : logbook_(std::move(logbook)), own_folder_(std::move(own_folder)) {
  serve();
}

ServedProgram::~ServedProgram() {
  if (process_ > 0) end_by(SIGKILL);
}

bool ServedProgram::started() {
  const auto port = std::to_string(port_);
  const auto own = own_folder_.string();
  std::array<int, 2> output{};
  if (::pipe2(output.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  std::vector<std::string> words = {
      BOLTWITNESS_PROGRAM, "--log", logbook_, "serve", "--port", port};
  std::vector<char*> arguments;
  for (auto& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  process_ = ::fork();
  if (process_ < 0) throw std::runtime_error("no process could be started");
  if (process_ == 0) {
    ::dup2(output[1], STDOUT_FILENO);
    ::setenv("XDG_DATA_HOME", own.c_str(), 1);
    ::execv(arguments.front(), arguments.data());
    ::_exit(127);
  }
  ::close(output[1]);
  output_ = output[0];
  std::string shown;
  std::array<char, 4096> buffer{};
  while (shown.find("Ctrl-C ends it") == std::string::npos) {
    const auto count = ::read(output_, buffer.data(), buffer.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) {
      end_by(SIGKILL);
      return false;
    }
    shown.append(buffer.data(), static_cast<std::size_t>(count));
  }
  code_ = between(shown, "code for one phone: ", '\n');
  port_ = std::stoi(between(shown, "http://127.0.0.1:", '/'));
  return true;
}

// What was killed may have its port for a moment longer.
void ServedProgram::serve() {
  for (int attempt = 0; attempt < 200; ++attempt) {
    if (started()) return;
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  }
  throw std::runtime_error("the program does not serve");
}

void ServedProgram::end_by(int signal) {
  ::kill(process_, signal);
  int status = 0;
  while (::waitpid(process_, &status, 0) < 0 && errno == EINTR) {
  }
  ::close(output_);
  process_ = -1;
}

void ServedProgram::cut() { end_by(SIGTERM); }

void ServedProgram::kill() { end_by(SIGKILL); }
