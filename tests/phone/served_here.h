#pragma once

#include <memory>

#include "phone/served_job.h"
#include "phone/serving.h"

// A job that is served by this process, and its link to be cut.
class ServedHere {
 public:
  explicit ServedHere(ServedJob& job) : job_(job) { serve(); }

  void cut() { serving_.reset(); }

  void serve() {
    phone::ServeOptions options;
    options.port = port_;
    serving_ = std::make_unique<phone::Serving>(job_.place(), options);
    port_ = serving_->port();
  }

  [[nodiscard]] bool is_cut() const { return serving_ == nullptr; }
  [[nodiscard]] int port() const { return port_; }
  [[nodiscard]] std::string code() const { return serving_->desk().code(); }

 private:
  ServedJob& job_;
  int port_ = 0;
  std::unique_ptr<phone::Serving> serving_;
};
