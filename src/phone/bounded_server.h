#pragma once

#include <httplib.h>

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "phone/connection.h"

namespace phone {

// The library's server with bounds to what a connection may take, so that slow, endless, broken and
// too many requests neither stop it nor fill memory: each is read within its time (Bounds), one
// address has so many connections at once, and there are so many threads in all.
class BoundedServer : public httplib::Server {
 public:
  // With a certificate and its key the way is TLS (version 1.2 at least); plain where there is
  // none. OutputLost where they cannot be used.
  explicit BoundedServer(const Bounds& bounds);
  BoundedServer(const Bounds& bounds, const std::string& certificate_file,
                const std::string& key_file);
  ~BoundedServer() override;

  [[nodiscard]] bool is_valid() const override { return true; }

  // What is sent to this path may be as long as a photograph where this allows it. It is asked once
  // the head of a request is there, so that who has no leave makes the server read nothing long.
  void let_photographs_to(std::string path, std::function<bool(const httplib::Request&)> has_leave);

  // Once it is bound: lets more of those wait who come at once than the library would, who else
  // try again a second later.
  void let_more_wait();

  // Ends it; whoever is being answered is let go within a moment.
  void end();

 private:
  static constexpr int kMostFromOneAddress = 24;
  static constexpr std::size_t kThreads = 64;

  struct Forget {
    void operator()(SSL_CTX* context) const;
  };

  [[nodiscard]] bool is_photograph(const httplib::Request& request) const;
  [[nodiscard]] int refused_unread(const httplib::Request& request) const;
  bool process_and_close_socket(int socket) override;
  void answer_all(int socket, SSL* tls);
  // One request on it, which `look` is given once its head is there; false where nothing could be
  // answered.
  bool answer_one(Connection& connection, bool is_last, bool& is_closed,
                  const std::function<void(httplib::Request&)>& look);

  Bounds bounds_;
  std::string photograph_path_;
  std::function<bool(const httplib::Request&)> has_leave_;
  std::unique_ptr<SSL_CTX, Forget> tls_;
  std::atomic<bool> is_stopping_ = false;
  std::mutex counting_;
  std::map<std::string, int> from_;
};

}  // namespace phone
