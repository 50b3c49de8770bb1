#include "phone/bounded_server.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <openssl/ssl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <charconv>
#include <optional>

#include "failure/failure.h"

namespace phone {
namespace {

// A page that looks every second or so keeps its connection for the next look.
constexpr std::chrono::milliseconds kBetweenRequests = std::chrono::seconds(4);
constexpr int kMostOnOneConnection = 200;
constexpr int kMostWaiting = 128;
constexpr std::size_t kLongestPath = 300;
constexpr int kNoLength = 400;
constexpr int kBodyTooLong = 413;
constexpr int kPathTooLong = 414;
constexpr int kPackedBody = 415;

// How many bytes the body is said to have, 0 where nothing is said; nothing where what is said is
// not digits alone (RFC 9110, section 8.6), which the library would take as far as it understands
// it.
std::optional<std::uint64_t> length_of_body(const httplib::Request& request) {
  constexpr const char* kName = "Content-Length";
  if (!request.has_header(kName)) return 0;
  const auto text = request.get_header_value(kName);
  std::uint64_t length = 0;
  const auto* const end = text.data() + text.size();
  const auto [stop, problem] = std::from_chars(text.data(), end, length);
  if (problem != std::errc() || stop != end) return std::nullopt;
  return length;
}

}  // namespace

void BoundedServer::Forget::operator()(SSL_CTX* context) const { ::SSL_CTX_free(context); }

BoundedServer::BoundedServer(const Bounds& bounds) : bounds_(bounds) {
  new_task_queue = [] { return new httplib::ThreadPool(kThreads); };
  set_payload_max_length(bounds_.most_photograph_bytes);
  set_tcp_nodelay(true);
  set_pre_routing_handler([this](const auto& request, auto& response) {
    const int status = refused_unread(request);
    if (status == 0) return HandlerResponse::Unhandled;
    response.status = status;
    return HandlerResponse::Handled;
  });
}

BoundedServer::BoundedServer(const Bounds& bounds, const std::string& certificate_file,
                             const std::string& key_file)
    : BoundedServer(bounds) {
  tls_.reset(::SSL_CTX_new(::TLS_server_method()));
  if (tls_ == nullptr || ::SSL_CTX_set_min_proto_version(tls_.get(), TLS1_2_VERSION) != 1 ||
      ::SSL_CTX_use_certificate_chain_file(tls_.get(), certificate_file.c_str()) != 1 ||
      ::SSL_CTX_use_PrivateKey_file(tls_.get(), key_file.c_str(), SSL_FILETYPE_PEM) != 1) {
    throw failure::OutputLost(
        fmt::format("{} and {} are no certificate and its key; move them away, and new ones are "
                    "made",
                    certificate_file, key_file));
  }
}

BoundedServer::~BoundedServer() = default;

void BoundedServer::let_photographs_to(std::string path,
                                       std::function<bool(const httplib::Request&)> has_leave) {
  photograph_path_ = std::move(path);
  has_leave_ = std::move(has_leave);
}

bool BoundedServer::is_photograph(const httplib::Request& request) const {
  return request.method == "POST" && request.path == photograph_path_;
}

// The status that a request is answered with before its body is read; 0 where it is read.
int BoundedServer::refused_unread(const httplib::Request& request) const {
  // The library looks paths up by a pattern, which takes the more stack the longer they are.
  if (request.path.size() > kLongestPath) return kPathTooLong;
  // It also unpacks what is sent packed, and little can be packed that is endless.
  if (request.has_header("Content-Encoding")) return kPackedBody;
  const auto most = is_photograph(request) ? bounds_.most_photograph_bytes : bounds_.most_bytes;
  const auto length = length_of_body(request);
  if (!length) return kNoLength;
  return *length > most ? kBodyTooLong : 0;
}

void BoundedServer::let_more_wait() { (void)::listen(svr_sock_, kMostWaiting); }

void BoundedServer::end() {
  is_stopping_ = true;
  stop();
}

bool BoundedServer::process_and_close_socket(int socket) {
  const auto from = address_at_other_end(socket);
  bool is_one_too_many = false;
  {
    const std::lock_guard lock(counting_);
    is_one_too_many = ++from_[from] > kMostFromOneAddress;
  }
  if (!is_one_too_many) {
    (void)::fcntl(socket, F_SETFL, ::fcntl(socket, F_GETFL, 0) | O_NONBLOCK);
    if (tls_ == nullptr) {
      answer_all(socket, nullptr);
    } else if (SSL* tls = ::SSL_new(tls_.get()); tls != nullptr) {
      ::SSL_set_mode(tls, SSL_MODE_ENABLE_PARTIAL_WRITE | SSL_MODE_ACCEPT_MOVING_WRITE_BUFFER);
      if (::SSL_set_fd(tls, socket) == 1) answer_all(socket, tls);
      ::SSL_free(tls);
    }
  }
  ::shutdown(socket, SHUT_RDWR);
  ::close(socket);
  const std::lock_guard lock(counting_);
  if (--from_[from] == 0) from_.erase(from);
  return !is_one_too_many;
}

void BoundedServer::answer_all(int socket, SSL* tls) {
  Connection connection(socket, tls, bounds_, is_stopping_);
  if (tls != nullptr && !connection.shake_hands()) return;
  for (int left = kMostOnOneConnection; left > 0 && !is_stopping_; --left) {
    if (!connection.waits_for_request(kBetweenRequests)) return;
    bool is_closed = false;
    bool is_last = false;  // what of it was not read cannot be told from the next
    const auto look = [&](const httplib::Request& request) {
      is_last = is_photograph(request) || refused_unread(request) != 0;
      if (is_photograph(request) && has_leave_(request)) {
        connection.take_up_to(bounds_.most_photograph_bytes);
      }
    };
    if (!answer_one(connection, left == 1, is_closed, look) || is_closed || is_last) return;
  }
}

bool BoundedServer::answer_one(Connection& connection, bool is_last, bool& is_closed,
                               const std::function<void(httplib::Request&)>& look) {
  // cpp-httplib 0.11 asks the connection who is at its ends; 0.18 is told.
  const auto answered = [&](auto& server) {
    if constexpr (requires { server.process_request(connection, is_last, is_closed, look); }) {
      return server.process_request(connection, is_last, is_closed, look);
    } else {
      std::string there;
      std::string here;
      int port_there = 0;
      int port_here = 0;
      connection.get_remote_ip_and_port(there, port_there);
      connection.get_local_ip_and_port(here, port_here);
      return server.process_request(connection, there, port_there, here, port_here, is_last,
                                    is_closed, look);
    }
  };
  return answered(*this);
}

}  // namespace phone
