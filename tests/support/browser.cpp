#include "support/browser.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <stdexcept>

namespace {

using nlohmann::json;

// The program: BOLTWITNESS_CHROMIUM, else where Debian has it.
std::string chromium() {
  const char* named = std::getenv("BOLTWITNESS_CHROMIUM");
  return named == nullptr ? "/usr/bin/chromium" : named;
}

constexpr auto kPatience = std::chrono::seconds(90);  // for one answer, on a machine that is busy

std::string from_base64(const std::string& text) {
  std::string bytes;
  unsigned bits = 0;
  int count = 0;
  for (const char c : text) {
    unsigned value = 0;
    if (c >= 'A' && c <= 'Z') {
      value = static_cast<unsigned>(c - 'A');
    } else if (c >= 'a' && c <= 'z') {
      value = static_cast<unsigned>(c - 'a' + 26);
    } else if (c >= '0' && c <= '9') {
      value = static_cast<unsigned>(c - '0' + 52);
    } else if (c == '+' || c == '/') {
      value = c == '+' ? 62U : 63U;
    } else {
      break;
    }
    bits = bits << 6U | value;
    count += 6;
    if (count < 8) continue;
    count -= 8;
    bytes += static_cast<char>(bits >> static_cast<unsigned>(count) & 0xFFU);
  }
  return bytes;
}

}  // namespace

Browser::Browser() {
  const auto program = chromium();
  if (::access(program.c_str(), X_OK) != 0) {
    throw std::runtime_error(program +
                             " is not installed; scripts/setup installs it on Debian, elsewhere "
                             "name a Chromium in BOLTWITNESS_CHROMIUM");
  }
  std::vector<std::string> words = {program,
                                    "--headless",
                                    "--no-sandbox",  // it opens our own files alone, also as root
                                    "--disable-gpu",
                                    "--disable-quic",
                                    "--disable-sync",
                                    "--disable-background-networking",
                                    "--disable-component-update",
                                    "--disable-dev-shm-usage",
                                    "--no-first-run",
                                    "--hide-scrollbars",
                                    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
                                    "--user-data-dir=" + profile_.path().string(),
                                    "--remote-debugging-pipe",
                                    "about:blank"};
  std::vector<char*> arguments;
  for (auto& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);

  std::array<int, 2> to{};
  std::array<int, 2> from{};
  if (::pipe2(to.data(), O_CLOEXEC) != 0 || ::pipe2(from.data(), O_CLOEXEC) != 0) {
    throw std::runtime_error("no pipe could be opened");
  }
  process_ = ::fork();
  if (process_ < 0) throw std::runtime_error("no process could be started");
  if (process_ == 0) {
    // Out of the way first, since the pipes may have got the very numbers that are needed.
    const int in = ::fcntl(to[0], F_DUPFD, 10);
    const int out = ::fcntl(from[1], F_DUPFD, 10);
    const int nowhere = ::open("/dev/null", O_RDWR);
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) ::dup2(nowhere, stream);
    ::dup2(in, 3);
    ::dup2(out, 4);
    ::setpgid(0, 0);
    ::execv(arguments.front(), arguments.data());
    ::_exit(127);
  }
  ::close(to[0]);
  ::close(from[1]);
  commands_ = to[1];
  answers_ = from[0];

  const auto target = call("Target.createTarget", {{"url", "about:blank"}});
  const auto attached =
      call("Target.attachToTarget", {{"targetId", target.at("targetId")}, {"flatten", true}});
  session_ = attached.at("sessionId").get<std::string>();
  for (const char* domain : {"Page.enable", "Network.enable", "Runtime.enable", "Log.enable"}) {
    call(domain);
  }
}

Browser::~Browser() {
  ::close(commands_);
  ::close(answers_);
  ::kill(process_, SIGKILL);  // the others of its group end with it
  int status = 0;
  while (::waitpid(process_, &status, 0) < 0 && errno == EINTR) {
  }
}

json Browser::next_message() {
  const auto until = std::chrono::steady_clock::now() + kPatience;
  while (true) {
    if (const auto end = read_.find('\0'); end != std::string::npos) {
      auto message = json::parse(read_.substr(0, end));
      read_.erase(0, end + 1);
      return message;
    }
    pollfd waiting{answers_, POLLIN, 0};
    if (std::chrono::steady_clock::now() > until || ::poll(&waiting, 1, 1000) < 0) {
      throw std::runtime_error(chromium() + " does not answer");
    }
    if ((waiting.revents & (POLLIN | POLLHUP)) == 0) continue;
    std::array<char, 65536> buffer{};
    const ssize_t count = ::read(answers_, buffer.data(), buffer.size());
    if (count <= 0)
      throw std::runtime_error(chromium() + " has ended before it answered; try: " + chromium() +
                               " --headless --no-sandbox --dump-dom about:blank");
    read_.append(buffer.data(), static_cast<std::size_t>(count));
  }
}

void Browser::note(const json& event) {
  const auto method = event.value("method", "");
  const auto& parameters = event.contains("params") ? event.at("params") : json::object();
  if (method == "Network.requestWillBeSent") {
    visit_.requests.push_back(parameters.at("request").at("url").get<std::string>());
  } else if (method == "Runtime.exceptionThrown" || method == "Runtime.consoleAPICalled" ||
             method == "Log.entryAdded") {
    visit_.complaints.push_back(parameters.dump());
  } else if (method == "Page.loadEventFired") {
    loaded_ = true;
  }
}

json Browser::call(const std::string& method, json parameters) {
  json command = {{"id", ++last_call_}, {"method", method}, {"params", std::move(parameters)}};
  if (!session_.empty()) command["sessionId"] = session_;
  const auto text = command.dump() + '\0';
  for (std::size_t done = 0; done < text.size();) {
    const auto count = ::write(commands_, text.data() + done, text.size() - done);
    if (count <= 0) throw std::runtime_error(chromium() + " takes no command");
    done += static_cast<std::size_t>(count);
  }
  while (true) {
    auto message = next_message();
    if (message.value("id", 0) == last_call_) {
      if (message.contains("error")) {
        throw std::runtime_error(method + ": " + message.at("error").dump());
      }
      return message.at("result");
    }
    note(message);
  }
}

Browser::Visit Browser::open(const std::string& file, int width) {
  return open_address("file://" + file, width);
}

Browser::Visit Browser::open_address(const std::string& address, int width) {
  visit_ = {};
  resize(width, 1000);
  load("Page.navigate", {{"url", address}});
  return visit_;
}

void Browser::resize(int width, int height) {
  call("Emulation.setDeviceMetricsOverride",
       {{"width", width}, {"height", height}, {"deviceScaleFactor", 1}, {"mobile", false}});
}

void Browser::prefer_dark(bool is_dark) {
  const json scheme = {{"name", "prefers-color-scheme"}, {"value", is_dark ? "dark" : "light"}};
  call("Emulation.setEmulatedMedia", {{"features", json::array({scheme})}});
}

void Browser::reload() { load("Page.reload"); }

void Browser::load(const std::string& method, json parameters) {
  loaded_ = false;
  call(method, std::move(parameters));
  while (!loaded_) note(next_message());
  // What the load event set off is answered before this is.
  call("Runtime.evaluate",
       {{"expression", "new Promise(done => setTimeout(done, 50))"}, {"awaitPromise", true}});
}

std::string Browser::screenshot(double scale) {
  const auto size = call("Page.getLayoutMetrics").at("cssContentSize");
  const json clip = {{"x", 0},
                     {"y", 0},
                     {"width", size.at("width")},
                     {"height", size.at("height")},
                     {"scale", scale}};
  return from_base64(call("Page.captureScreenshot",
                          {{"format", "png"}, {"clip", clip}, {"captureBeyondViewport", true}})
                         .at("data")
                         .get<std::string>());
}

std::string Browser::print() {
  return from_base64(
      call("Page.printToPDF", {{"preferCSSPageSize", true}}).at("data").get<std::string>());
}

json Browser::evaluate(const std::string& expression) {
  const auto answer =
      call("Runtime.evaluate",
           {{"expression", expression}, {"awaitPromise", true}, {"returnByValue", true}});
  if (answer.contains("exceptionDetails")) {
    throw std::runtime_error(answer.at("exceptionDetails").dump());
  }
  return answer.at("result").value("value", json());
}

int pages_of(const std::string& pdf) {
  constexpr std::string_view kPage = "/Type /Page";
  int count = 0;
  for (auto at = pdf.find(kPage); at != std::string::npos; at = pdf.find(kPage, at + 1)) {
    const char behind = at + kPage.size() < pdf.size() ? pdf[at + kPage.size()] : ' ';
    if (behind != 's') ++count;  // "/Type /Pages" is the list of them
  }
  return count;
}
