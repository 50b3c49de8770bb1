#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "phone/desk.h"
#include "support/catch.h"
#include "support/trial.h"

// A small job that is served: a wrench, J06 with three bolts, and phones that ask for it without a
// network between.
class ServedJob {
 public:
  ServedJob() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("job.bolts");
    trial.done("start " + trial.folder().file("job.bolts") + " --machine 'GB-1 gearbox'");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-05-02");
    trial.done(
        "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 3 --layout line --spec "
        "'40 N·m, 80 N·m' --source 'GB-1 Shop Manual p. 12' --condition oiled");
  }

  [[nodiscard]] phone::Place place() {
    phone::Place place;
    place.logbook = trial.folder().file("job.bolts");
    place.folder = trial.folder().path() / "own";
    place.now = [this] { return trial.now; };
    place.device = [this] { return trial.device; };
    return place;
  }

  Trial trial;
};

// One phone, paired with a desk.
class TriedPhone {
 public:
  TriedPhone(phone::Desk& desk, const std::string& who) : desk_(&desk) {
    const auto answer = post("/api/pair", {{"code", desk.code()}, {"who", who}});
    REQUIRE(answer.status == 200);
    for (const auto& [name, value] : answer.headers) {
      if (name == "Set-Cookie") cookie_ = value.substr(0, value.find(';'));
    }
    REQUIRE(cookie_.size() > 64);
  }

  [[nodiscard]] phone::Asked asked(const std::string& method, const std::string& path) const {
    phone::Asked asked;
    asked.method = method;
    asked.path = path;
    asked.cookies = cookie_;
    asked.host = "127.0.0.1:8417";
    asked.origin = "http://127.0.0.1:8417";
    asked.site = "same-origin";
    asked.content_type = "application/json";
    asked.from = "127.0.0.1";
    return asked;
  }

  phone::Answer post(const std::string& path, const nlohmann::json& body) {
    auto request = asked("POST", path);
    request.body = body.dump();
    return desk_->answer(request);
  }

  phone::Answer get(const std::string& path, std::map<std::string, std::string> query = {}) {
    auto request = asked("GET", path);
    request.query = std::move(query);
    return desk_->answer(request);
  }

  // A deed under a new id.
  phone::Answer tap(nlohmann::json deed) {
    deed["id"] = fmt::format("9{:03x}-{:012x}", ++ids % 4096, ids);
    deed["at"] = 0;
    last_id = deed["id"].get<std::string>();
    return post("/api/deed", deed);
  }

  [[nodiscard]] const std::string& cookie() const { return cookie_; }
  std::string last_id;

 private:
  static inline int ids = 0;
  phone::Desk* desk_;
  std::string cookie_;
};

inline nlohmann::json body_of(const phone::Answer& answer) {
  return nlohmann::json::parse(answer.body);
}

inline std::string refused(const phone::Answer& answer) {
  return body_of(answer).value("refused", "");
}
