#pragma once
// HttpClient by libcurl. TLS 1.2 or later with certificate and name checked; https and nothing else, also
// after a redirect; every wait and every size is bounded.
#include <chrono>
#include <cstddef>
#include <memory>
#include <string>

#include "weatherstruck/feed/file_source.h"
#include "weatherstruck/feed/http.h"

namespace weatherstruck::feed {

/// Own choice, for a phone's signal in a field: a forecast has 0.1-0.3 MB and comes in a second or two.
struct HttpLimits {
  std::chrono::milliseconds connect{10'000};
  std::chrono::milliseconds whole{60'000};      ///< one exchange with its redirects
  long slow_bytes_per_second = 200;             ///< below this ...
  std::chrono::seconds slow_for{15};            ///< ... for so long: given up
  std::size_t most_bytes = kMostForecastBytes;  ///< of the body once unpacked; more is refused as from a file
  std::size_t most_header_bytes = std::size_t{64} << 10;
  long most_redirects = 3;
};

/// What only some need.
struct HttpDoors {
  /// Plain http too, and no connection to anywhere but 127.0.0.1 and ::1, by proxy neither: for a server on
  /// this machine.
  bool http_on_loopback = false;
  /// Certificates to trust in place of the system's, PEM; empty: the system's. For tests.
  std::string ca_file;
};

/// One for each thread; connections are reused between calls. The usual proxy variables of the environment
/// count; no cookies, no .netrc, no passwords in addresses.
class CurlClient : public HttpClient {
 public:
  /// @param user_agent see feed::user_agent. @throws std::invalid_argument where it is empty or holds a
  /// control character; std::runtime_error where the library cannot start or lacks https
  explicit CurlClient(std::string user_agent, const HttpLimits& limits = {}, HttpDoors doors = {});
  ~CurlClient() override;
  CurlClient(const CurlClient&) = delete;
  CurlClient& operator=(const CurlClient&) = delete;
  HttpAnswer get(const HttpRequest& request) override;

 private:
  struct Handle;
  std::unique_ptr<Handle> handle_;
  std::string user_agent_;
  HttpLimits limits_;
  HttpDoors doors_;
};

}  // namespace weatherstruck::feed
