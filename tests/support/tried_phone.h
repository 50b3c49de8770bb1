#pragma once

#include <fmt/format.h>

#include <atomic>
#include <chrono>
#include <map>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <utility>

#include "phone/deed.h"
#include "phone/desk.h"
#include "record/moment.h"

// One phone, paired with a desk.
class TriedPhone {
 public:
  TriedPhone(phone::Desk& desk, const std::string& who) : desk_(&desk) {
    const auto answer = post("/api/pair", {{"code", desk.code()}, {"who", who}});
    if (answer.status != 200) throw std::runtime_error(answer.body);
    for (const auto& [name, value] : answer.headers) {
      if (name == "Set-Cookie") cookie_ = value.substr(0, value.find(';'));
    }
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

  // Another one at each call, from whichever thread.
  [[nodiscard]] static std::string new_id() {
    static std::atomic<int> ids = 0;
    const int id = ++ids;
    return fmt::format("9{:03x}-{:012x}", id % 4096, id);
  }

  // A deed under a new id.
  phone::Answer tap(nlohmann::json deed, record::Moment at = {}) {
    deed["id"] = last_id = new_id();
    deed["at"] = at.time_since_epoch() / std::chrono::milliseconds(1);
    return post("/api/deed", deed);
  }

  // What a page sends with a photograph: the deed on a line of its own, then the picture.
  [[nodiscard]] phone::Asked photograph(const nlohmann::json& deed, const std::string& picture) {
    auto request = asked("POST", std::string(phone::kPhotographPath));
    request.content_type = "application/octet-stream";
    request.body = deed.dump() + '\n' + picture;
    return request;
  }

  // A photograph under a new id.
  phone::Answer keep_photograph(const std::string& where, const std::string& picture,
                                const std::string& note = {}) {
    last_id = new_id();
    return desk_->answer(photograph({{"id", last_id},
                                     {"at", 0},
                                     {"kind", phone::kPhotograph},
                                     {"where", where},
                                     {"note", note}},
                                    picture));
  }

  [[nodiscard]] const std::string& cookie() const { return cookie_; }
  std::string last_id;

 private:
  phone::Desk* desk_;
  std::string cookie_;
};

inline nlohmann::json body_of(const phone::Answer& answer) {
  return nlohmann::json::parse(answer.body);
}

inline std::string refused(const phone::Answer& answer) {
  return body_of(answer).value("refused", "");
}
