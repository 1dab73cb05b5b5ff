#pragma once
// The world of a fetch, made by hand: a client that follows a script, a cache in memory, a clock that only
// moves when told.
#include <chrono>
#include <deque>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/feed/forecast_fetch.h"
#include "weatherstruck/feed/http.h"

namespace weatherstruck::feed {

class ScriptedClient : public HttpClient {
 public:
  HttpAnswer get(const HttpRequest& request) override {
    requests.push_back(request);
    if (script.empty()) throw std::logic_error("a request too many: " + request.url);
    HttpAnswer next = std::move(script.front());
    script.pop_front();
    return next;
  }
  std::deque<HttpAnswer> script;
  std::vector<HttpRequest> requests;
};

class MemoryCache : public ForecastCache {
 public:
  std::optional<CachedAnswer> get(const std::string& url) override {
    const auto found = held.find(url);
    return found == held.end() ? std::nullopt : std::optional(found->second);
  }
  void put(const CachedAnswer& answer) override {
    if (full) throw std::runtime_error("no space left");
    held[answer.url] = answer;
  }
  std::map<std::string, CachedAnswer> held;
  bool full = false;
};

/// Sleeping moves the clock and takes no time.
struct FakeWorld {
  base::Instant now{};
  std::vector<std::chrono::milliseconds> slept;
  MemoryCache cache;
  [[nodiscard]] FetchPorts ports(HttpClient& http) {
    return {http, cache, [this] { return now; },
            [this](std::chrono::milliseconds wait) {
              slept.push_back(wait);
              now += std::chrono::ceil<std::chrono::seconds>(wait);
            }};
  }
};

inline HttpResponse response(int status, std::string body = {},
                             std::vector<std::pair<std::string, std::string>> headers = {}) {
  return {status, std::move(headers), std::move(body)};
}

}  // namespace weatherstruck::feed
