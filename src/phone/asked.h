#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace phone {

// A request, whatever library read it.
struct Asked {
  std::string method;
  std::string path;
  std::map<std::string, std::string> query;
  std::string cookies;       // as they came
  std::string host;          // with its port
  std::string origin;        // empty where none was sent
  std::string site;          // Sec-Fetch-Site; empty where none was sent
  std::string content_type;  // of the body
  std::string body;
  std::string from;  // the address that it came from
};

struct Answer {
  int status = 200;
  std::string type = "application/json; charset=utf-8";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers = {};
};

}  // namespace phone
