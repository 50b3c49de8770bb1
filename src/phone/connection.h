#pragma once

#include <httplib.h>

#include <atomic>
#include <chrono>
#include <string>

#include "phone/bounds.h"

namespace phone {

// The bytes of one connection, plain or through TLS, under such bounds.
class Connection : public httplib::Stream {
 public:
  // Of a socket that does not block; `tls` is nothing where it is plain. Both are closed elsewhere.
  Connection(int socket, SSL* tls, const Bounds& bounds, const std::atomic<bool>& is_stopping);

  // Whether a request begins within this time.
  [[nodiscard]] bool waits_for_request(std::chrono::milliseconds time);

  // How much this request may have in all, where it is another figure than that of the bounds.
  void take_up_to(std::size_t most_bytes) { most_bytes_ = most_bytes; }

  // The TLS handshake; false where it fails or takes too long.
  [[nodiscard]] bool shake_hands();

  [[nodiscard]] bool is_readable() const override;
  [[nodiscard]] bool is_writable() const override;
  ssize_t read(char* to, std::size_t size) override;
  ssize_t write(const char* from, std::size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;
  [[nodiscard]] int socket() const override { return socket_; }

 private:
  using Clock = std::chrono::steady_clock;

  [[nodiscard]] bool wait_for(short events, Clock::time_point until) const;
  [[nodiscard]] Clock::time_point end() const;
  template <class Transfer>
  ssize_t through(short events, Transfer&& transfer);

  int socket_;
  SSL* tls_;
  Bounds bounds_;
  const std::atomic<bool>& is_stopping_;
  Clock::time_point begun_ = Clock::now();
  std::size_t most_bytes_;  // of this request
  std::size_t received_ = 0;
  std::size_t sent_ = 0;
};

// The address at the other end; empty where it cannot be told.
[[nodiscard]] std::string address_at_other_end(int socket);

}  // namespace phone
