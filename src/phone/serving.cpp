#include "phone/serving.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "failure/failure.h"
#include "logbook/digest.h"
#include "phone/addresses.h"
#include "phone/bounded_server.h"

namespace phone {

namespace {

namespace fs = std::filesystem;

// Longer than a photograph takes on a fast way, and less than a page waits for.
constexpr std::chrono::milliseconds kPatienceForTurn = std::chrono::seconds(3);
constexpr int kBusy = 503;
constexpr int kBroken = 400;
constexpr const char* kThisMachine = "127.0.0.1";
constexpr const char* kEveryNetwork = "0.0.0.0";

Asked asked_by(const httplib::Request& request) {
  Asked asked;
  asked.method = request.method;
  asked.path = request.path;
  for (const auto& [name, value] : request.params) asked.query.emplace(name, value);
  asked.cookies = request.get_header_value("Cookie");
  asked.host = request.get_header_value("Host");
  asked.origin = request.get_header_value("Origin");
  asked.site = request.get_header_value("Sec-Fetch-Site");
  asked.content_type = request.get_header_value("Content-Type");
  asked.body = request.body;
  asked.from = request.remote_addr;
  return asked;
}

void put_head(const Answer& answer, httplib::Response& response) {
  response.status = answer.status;
  for (const auto& [name, value] : answer.headers) response.set_header(name, value);
}

void put_answer(const Answer& answer, httplib::Response& response) {
  put_head(answer, response);
  response.set_content(answer.body, answer.type);
}

}  // namespace

// Held while a logbook is served, so that a second one is told; the file says where.
class Serving::Lock {
 public:
  Lock(const fs::path& folder, const std::string& logbook) {
    std::error_code problem;
    fs::create_directories(folder, problem);
    const auto path = fs::weakly_canonical(logbook, problem).string();
    file_ = folder / ("serving-" + logbook::sha256(path).substr(0, 16));
    handle_ = ::open(file_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (handle_ < 0) {
      throw failure::OutputLost(fmt::format("{} cannot be made ({}); nothing is served",
                                            file_.string(), std::strerror(errno)));
    }
    if (::flock(handle_, LOCK_EX | LOCK_NB) == 0) return;
    std::array<char, 200> at{};
    const auto size = ::pread(handle_, at.data(), at.size() - 1, 0);
    ::close(handle_);
    throw failure::Refusal(
        fmt::format("{} is served already, at {}; pair the phone there, or end that one first",
                    logbook, size > 0 ? at.data() : "another terminal"));
  }
  // The file stays: one that went would be locked once more under its name by who comes then.
  ~Lock() {
    (void)!::ftruncate(handle_, 0);
    ::close(handle_);
  }
  Lock(const Lock&) = delete;
  Lock& operator=(const Lock&) = delete;

  void tell(const std::string& address) const {
    (void)!::ftruncate(handle_, 0);
    (void)!::pwrite(handle_, address.data(), address.size(), 0);
  }

 private:
  fs::path file_;
  int handle_ = -1;
};

// Who has no leave is answered so before anything of it is read.
void Serving::take_photograph(const httplib::Request& request, httplib::Response& response,
                              const httplib::ContentReader& read) {
  auto asked = asked_by(request);
  std::shared_ptr<void> turn;
  if (desk_->has_leave(asked)) {
    turn = photographs_.turn(kPatienceForTurn);
    if (turn == nullptr) {
      response.status = kBusy;
      return;
    }
    // The library takes one of many parts through another door.
    if (request.is_multipart_form_data() || !read([&](const char* bytes, size_t count) {
          asked.body.append(bytes, count);
          return true;
        })) {
      response.status = kBroken;
      return;
    }
  }
  put_answer(desk_->answer(asked), response);
}

// Held in memory for as long as it is on its way. Who has no leave waits for no turn and takes
// none.
void Serving::give_photograph(const httplib::Request& request, httplib::Response& response) {
  const auto asked = asked_by(request);
  if (!desk_->has_leave(asked)) {
    put_answer(desk_->answer(asked), response);
    return;
  }
  auto turn = photographs_.turn(kPatienceForTurn);
  if (turn == nullptr) {
    response.status = kBusy;
    return;
  }
  auto answer = std::make_shared<Answer>(desk_->answer(asked));
  if (answer->body.empty()) {
    put_answer(*answer, response);
    return;
  }
  put_head(*answer, response);
  response.set_content_provider(answer->body.size(), answer->type,
                                [answer, turn](size_t from, size_t count, httplib::DataSink& sink) {
                                  return sink.write(answer->body.data() + from, count);
                                });
}

Serving::Serving(Place place, const ServeOptions& options)
    : lock_(std::make_unique<Lock>(place.folder, place.logbook)),
      photographs_(options.bounds.photographs_at_once) {
  if (options.tls) certificate_ = own_certificate(place.folder);
  server_ = certificate_
                ? std::make_unique<BoundedServer>(options.bounds, certificate_->file.string(),
                                                  certificate_->key_file.string())
                : std::make_unique<BoundedServer>(options.bounds);
  const auto* host = options.lan ? kEveryNetwork : kThisMachine;
  port_ = options.port == 0                           ? server_->bind_to_any_port(host)
          : server_->bind_to_port(host, options.port) ? options.port
                                                      : -1;
  if (port_ <= 0) {
    throw failure::Refusal(
        fmt::format("port {} is taken or not allowed; name another one with --port", options.port));
  }
  server_->let_more_wait();
  place.port = port_;
  place.is_secure = options.tls;
  desk_ = std::make_unique<Desk>(std::move(place));
  const auto answer = [this](const httplib::Request& request, httplib::Response& response) {
    put_answer(desk_->answer(asked_by(request)), response);
  };
  server_->let_photographs_to(
      std::string(kPhotographPath),
      [this](const httplib::Request& request) { return desk_->has_leave(asked_by(request)); });
  server_->Post(std::string(kPhotographPath),
                [this](const auto& request, auto& response, const auto& read) {
                  take_photograph(request, response, read);
                });
  server_->Get(std::string(kPhotographPath) + "/.*",
               [this](const auto& request, auto& response) { give_photograph(request, response); });
  // One door for all, in front of whatever the library would do with files and ranges itself.
  server_->Get(".*", answer);
  server_->Post(".*", answer);
  server_->Put(".*", answer);
  server_->Patch(".*", answer);
  server_->Delete(".*", answer);
  server_->Options(".*", answer);

  const auto* scheme = options.tls ? "https" : "http";
  if (options.lan) {
    for (const auto& each : addresses_in_network()) {
      addresses_.push_back(fmt::format("{}://{}:{}/", scheme, each, port_));
    }
  }
  addresses_.push_back(fmt::format("{}://{}:{}/", scheme, kThisMachine, port_));
  lock_->tell(addresses_.front());
  thread_ = std::thread([this] {
    server_->listen_after_bind();
    is_over_ = true;
  });
  // Told to end before it listens, the library would listen all the same.
  while (!server_->is_running() && !is_over_) {
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
}

Serving::~Serving() {
  server_->end();
  thread_.join();
}

}  // namespace phone
