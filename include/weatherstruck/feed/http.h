#pragma once
// One HTTP exchange as plain values. Whoever fetches knows only this; the library that does it stands behind
// HttpClient, and a test puts a script there.
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace weatherstruck::feed {

struct HttpRequest {
  std::string url;                ///< https only, see CurlClient
  std::string accept;             ///< media type wanted, e.g. "application/json"; may be empty
  std::string if_modified_since;  ///< sent byte for byte as the service gave it; empty: not sent
  std::string key{};              ///< a query to go behind `url` ("apikey=..."); never kept, never shown
};

struct HttpResponse {
  int status = 0;
  /// Names in lower case, in the order received; of the last response where redirects were followed.
  std::vector<std::pair<std::string, std::string>> headers;
  std::string body;  ///< decoded (gzip and so on)
  /// The first header of that lower-case name; nullptr where there is none.
  [[nodiscard]] const std::string* header(std::string_view lower_case_name) const;
};

/// Why there is no response.
enum class HttpTrouble {
  no_name,        ///< the host's name was not found: mostly no network at all
  no_connection,  ///< refused, reset, or closed before an answer
  no_answer,      ///< nothing came in time
  too_slow,       ///< something came, too little a second or not all in time
  cut_short,      ///< fewer bytes than announced
  too_big,        ///< more bytes than HttpLimits allows, packed or unpacked
  redirects,      ///< too many, or to an address that is not allowed
  not_https,      ///< the address itself is not allowed
  certificate,    ///< not who it says it is, or no safe connection
  garbled,        ///< no HTTP, or an encoding that cannot be undone
  other
};

struct HttpFailure {
  HttpTrouble trouble = HttpTrouble::other;
  /// The library's words on one line; never a query, a key or a password.
  std::string detail;
};

using HttpAnswer = std::variant<HttpResponse, HttpFailure>;

class HttpClient {
 public:
  virtual ~HttpClient() = default;
  /// Asks once, no retry. Whatever the world does comes back as a value.
  /// @throws std::invalid_argument where a field of the request holds a control character
  virtual HttpAnswer get(const HttpRequest& request) = 0;

 protected:
  HttpClient() = default;
  HttpClient(const HttpClient&) = default;
  HttpClient& operator=(const HttpClient&) = default;
};

/// "weatherstruck/<version> <contact>". Both services refuse a caller who does not say who he is (MET Norway
/// Terms of Service; NWS API documentation, "Authentication").
/// @param contact a mail address or a site of the user's own
/// @throws base::InputError "no-contact" (blank) or "bad-contact" (blanks or other than printable ASCII
/// inside, over 100 bytes, neither name@host.tld nor host.tld)
[[nodiscard]] std::string user_agent(std::string_view version, std::string_view contact);

/// Scheme, host and path: an address as it may be shown or kept in a log.
[[nodiscard]] std::string without_query(std::string_view url);
/// Text of any kind with the query, fragment and user:password of every address in it left out, on one line.
[[nodiscard]] std::string without_queries(std::string_view text);

}  // namespace weatherstruck::feed
