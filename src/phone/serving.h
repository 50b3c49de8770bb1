#pragma once

#include <atomic>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "phone/bounds.h"
#include "phone/certificate.h"
#include "phone/desk.h"
#include "phone/few_at_once.h"

namespace httplib {
struct Request;
struct Response;
class ContentReader;
}  // namespace httplib

namespace phone {

class BoundedServer;

// How a logbook is served.
struct ServeOptions {
  bool lan = false;  // to the network; else to this machine alone
  bool tls = false;
  int port = 8417;  // 0 for any that is free
  Bounds bounds = {};
};

// A logbook that is served, from its making until it goes out of scope. Refusal where another
// program of this user serves the same logbook already, naming its address, or where the port is
// taken.
class Serving {
 public:
  Serving(Place place, const ServeOptions& options);
  ~Serving();
  Serving(const Serving&) = delete;
  Serving& operator=(const Serving&) = delete;

  [[nodiscard]] int port() const { return port_; }
  // Where the pages are to be opened, the first one the likeliest.
  [[nodiscard]] const std::vector<std::string>& addresses() const { return addresses_; }
  [[nodiscard]] const std::optional<Certificate>& certificate() const { return certificate_; }
  [[nodiscard]] Desk& desk() { return *desk_; }

 private:
  class Lock;

  void take_photograph(const httplib::Request& request, httplib::Response& response,
                       const httplib::ContentReader& read);
  void give_photograph(const httplib::Request& request, httplib::Response& response);

  std::unique_ptr<Lock> lock_;
  std::optional<Certificate> certificate_;
  std::unique_ptr<BoundedServer> server_;
  std::unique_ptr<Desk> desk_;
  FewAtOnce photographs_;
  int port_ = 0;
  std::vector<std::string> addresses_;
  std::atomic<bool> is_over_ = false;
  std::thread thread_;
};

}  // namespace phone
