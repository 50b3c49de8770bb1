#include "phone/connection.h"

#include <arpa/inet.h>
#include <openssl/err.h>
#include <openssl/ssl.h>
#include <poll.h>
#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <cerrno>

namespace phone {
namespace {

constexpr std::chrono::milliseconds kGlance = std::chrono::milliseconds(100);

using AddressOf = int (*)(int, sockaddr*, socklen_t*);

void put_address(int socket, AddressOf of, std::string& ip, int& port) {
  sockaddr_storage address{};
  socklen_t length = sizeof address;
  if (of(socket, reinterpret_cast<sockaddr*>(&address), &length) != 0) return;
  std::array<char, INET6_ADDRSTRLEN> text{};
  const void* bytes = nullptr;
  if (address.ss_family == AF_INET) {
    const auto* four = reinterpret_cast<const sockaddr_in*>(&address);
    bytes = &four->sin_addr;
    port = ntohs(four->sin_port);
  } else if (address.ss_family == AF_INET6) {
    const auto* six = reinterpret_cast<const sockaddr_in6*>(&address);
    bytes = &six->sin6_addr;
    port = ntohs(six->sin6_port);
  }
  if (bytes != nullptr && ::inet_ntop(address.ss_family, bytes, text.data(), text.size())) {
    ip = text.data();
  }
}

int address_of_other_end(int socket, sockaddr* address, socklen_t* length) {
  return ::getpeername(socket, address, length);
}

int address_of_this_end(int socket, sockaddr* address, socklen_t* length) {
  return ::getsockname(socket, address, length);
}

}  // namespace

std::string address_at_other_end(int socket) {
  std::string ip;
  int port = 0;
  put_address(socket, address_of_other_end, ip, port);
  return ip;
}

Connection::Connection(int socket, SSL* tls, const Bounds& bounds,
                       const std::atomic<bool>& is_stopping)
    : socket_(socket),
      tls_(tls),
      bounds_(bounds),
      is_stopping_(is_stopping),
      most_bytes_(bounds.most_bytes) {}

// In glances, so that a server that is to end waits for nobody.
bool Connection::wait_for(short events, Clock::time_point until) const {
  while (!is_stopping_) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now());
    if (left.count() <= 0) return false;
    pollfd one{socket_, events, 0};
    const int ready = ::poll(&one, 1, static_cast<int>(std::min(left, kGlance).count()));
    if (ready < 0 && errno != EINTR) return false;
    if (ready > 0) return true;
  }
  return false;
}

Connection::Clock::time_point Connection::end() const {
  return begun_ + bounds_.begin +
         std::chrono::milliseconds(1'000 * (received_ + sent_) / bounds_.bytes_in_second);
}

bool Connection::waits_for_request(std::chrono::milliseconds time) {
  const bool is_there =
      (tls_ != nullptr && ::SSL_pending(tls_) > 0) || wait_for(POLLIN, Clock::now() + time);
  begun_ = Clock::now();
  most_bytes_ = bounds_.most_bytes;
  received_ = 0;
  sent_ = 0;
  return is_there;
}

// What the transfer moves at once, else after the socket is ready; below zero where the time is up
// or the connection is gone.
template <class Transfer>
ssize_t Connection::through(short events, Transfer&& transfer) {
  while (Clock::now() < end() && !is_stopping_) {
    if (tls_ == nullptr) {
      const ssize_t moved = transfer();
      if (moved >= 0) return moved;
      if (errno == EINTR) continue;
      if (errno != EAGAIN && errno != EWOULDBLOCK) return -1;
      if (!wait_for(events, end())) return -1;
      continue;
    }
    ::ERR_clear_error();
    const ssize_t moved = transfer();
    if (moved > 0) return moved;
    const int why = ::SSL_get_error(tls_, static_cast<int>(moved));
    if (why == SSL_ERROR_ZERO_RETURN) return 0;
    if (why != SSL_ERROR_WANT_READ && why != SSL_ERROR_WANT_WRITE) return -1;
    if (!wait_for(why == SSL_ERROR_WANT_READ ? POLLIN : POLLOUT, end())) return -1;
  }
  return -1;
}

bool Connection::shake_hands() {
  return through(POLLIN, [&] { return static_cast<ssize_t>(::SSL_accept(tls_)); }) > 0;
}

bool Connection::is_readable() const {
  return (tls_ != nullptr && ::SSL_pending(tls_) > 0) || wait_for(POLLIN, end());
}

bool Connection::is_writable() const { return wait_for(POLLOUT, end()); }

ssize_t Connection::read(char* to, std::size_t size) {
  if (received_ >= most_bytes_) return -1;
  const auto wanted = std::min(size, most_bytes_ - received_);
  const auto moved = through(POLLIN, [&]() -> ssize_t {
    return tls_ == nullptr ? ::recv(socket_, to, wanted, 0)
                           : ::SSL_read(tls_, to, static_cast<int>(wanted));
  });
  if (moved > 0) received_ += static_cast<std::size_t>(moved);
  return moved;
}

ssize_t Connection::write(const char* from, std::size_t size) {
  const auto moved = through(POLLOUT, [&]() -> ssize_t {
    return tls_ == nullptr ? ::send(socket_, from, size, MSG_NOSIGNAL)
                           : ::SSL_write(tls_, from, static_cast<int>(size));
  });
  if (moved > 0) sent_ += static_cast<std::size_t>(moved);
  return moved;
}

void Connection::get_remote_ip_and_port(std::string& ip, int& port) const {
  put_address(socket_, address_of_other_end, ip, port);
}

void Connection::get_local_ip_and_port(std::string& ip, int& port) const {
  put_address(socket_, address_of_this_end, ip, port);
}

}  // namespace phone
