#include "weatherstruck/feed/curl_client.h"

#include <algorithm>
#include <array>
#include <new>
#include <stdexcept>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "curl_library.h"

namespace weatherstruck::feed {
namespace {

bool holds_control(std::string_view text) {
  return std::any_of(text.begin(), text.end(),
                     [](char c) { return static_cast<unsigned char>(c) < ' ' || c == 0x7f; });
}

void check_plain(std::string_view text, const char* what) {
  if (holds_control(text)) throw std::invalid_argument(std::string(what) + " holds a control character");
}

// What one exchange has brought so far, and why it was broken off from here.
struct Receipt {
  HttpResponse response;
  std::size_t header_bytes = 0;
  std::size_t most_bytes = 0;
  std::size_t most_header_bytes = 0;
  bool too_big = false;  ///< body or headers
  bool off_loopback = false;
};

// Counts what comes out of unpacking: a declared length says nothing about that.
std::size_t take_body(const char* bytes, std::size_t size, std::size_t count, void* into) {
  auto& receipt = *static_cast<Receipt*>(into);
  const std::size_t length = size * count;
  if (length > receipt.most_bytes - receipt.response.body.size()) {
    receipt.too_big = true;
    return 0;
  }
  receipt.response.body.append(bytes, length);
  return length;
}

std::size_t take_header(const char* bytes, std::size_t size, std::size_t count, void* into) {
  auto& receipt = *static_cast<Receipt*>(into);
  const std::size_t length = size * count;
  receipt.header_bytes += length;
  if (receipt.header_bytes > receipt.most_header_bytes) {
    receipt.too_big = true;
    return 0;
  }
  std::string_view line(bytes, length);
  while (!line.empty() && (line.back() == '\r' || line.back() == '\n' || line.back() == ' '))
    line.remove_suffix(1);
  if (line.starts_with("HTTP/")) {
    // The headers of a redirect, or of a provisional answer, are not those of the response.
    receipt.response.headers.clear();
    return length;
  }
  const auto colon = line.find(':');
  if (colon == std::string_view::npos) return length;
  std::string name(line.substr(0, colon));
  std::transform(name.begin(), name.end(), name.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  std::string_view value = line.substr(colon + 1);
  while (!value.empty() && (value.front() == ' ' || value.front() == '\t'))
    value.remove_prefix(1);
  receipt.response.headers.emplace_back(std::move(name), std::string(value));
  return length;
}

// Asked once connected and before anything is sent.
int only_loopback(void* into, char* their_address, char*, int, int) {
  const std::string_view address(their_address);
  if (address == "127.0.0.1" || address == "::1") return CURL_PREREQFUNC_OK;
  static_cast<Receipt*>(into)->off_loopback = true;
  return CURL_PREREQFUNC_ABORT;
}

HttpTrouble trouble_of(CURLcode code, const Receipt& receipt, long redirects) {
  if (receipt.too_big) return HttpTrouble::too_big;
  if (receipt.off_loopback) return redirects > 0 ? HttpTrouble::redirects : HttpTrouble::not_https;
  switch (code) {
    case CURLE_COULDNT_RESOLVE_HOST:
    case CURLE_COULDNT_RESOLVE_PROXY:
      return HttpTrouble::no_name;
    case CURLE_COULDNT_CONNECT:
    case CURLE_GOT_NOTHING:
    case CURLE_SEND_ERROR:
      return HttpTrouble::no_connection;
    case CURLE_RECV_ERROR:
    case CURLE_HTTP2:
    case CURLE_HTTP2_STREAM:
      return receipt.header_bytes == 0 ? HttpTrouble::no_connection : HttpTrouble::cut_short;
    case CURLE_OPERATION_TIMEDOUT:
      return receipt.header_bytes == 0 ? HttpTrouble::no_answer : HttpTrouble::too_slow;
    case CURLE_PARTIAL_FILE:
      return HttpTrouble::cut_short;
    case CURLE_FILESIZE_EXCEEDED:
      return HttpTrouble::too_big;
    case CURLE_TOO_MANY_REDIRECTS:
      return HttpTrouble::redirects;
    case CURLE_UNSUPPORTED_PROTOCOL:
    case CURLE_URL_MALFORMAT:
    case CURLE_LOGIN_DENIED:
      return redirects > 0 ? HttpTrouble::redirects : HttpTrouble::not_https;
    case CURLE_SSL_CONNECT_ERROR:
    case CURLE_PEER_FAILED_VERIFICATION:
    case CURLE_SSL_CERTPROBLEM:
    case CURLE_SSL_CIPHER:
    case CURLE_SSL_CACERT_BADFILE:
    case CURLE_SSL_ISSUER_ERROR:
    case CURLE_SSL_INVALIDCERTSTATUS:
      return HttpTrouble::certificate;
    case CURLE_BAD_CONTENT_ENCODING:
    case CURLE_WEIRD_SERVER_REPLY:
      return HttpTrouble::garbled;
    default:
      return HttpTrouble::other;
  }
}

struct ListOfHeaders {
  curl_slist* first = nullptr;
  ListOfHeaders() = default;
  ListOfHeaders(const ListOfHeaders&) = delete;
  ListOfHeaders& operator=(const ListOfHeaders&) = delete;
  ~ListOfHeaders() { curl_library().slist_free_all(first); }
  void add(const std::string& line) {
    curl_slist* longer = curl_library().slist_append(first, line.c_str());
    if (longer == nullptr) throw std::bad_alloc();
    first = longer;
  }
};

}  // namespace

struct CurlClient::Handle {
  CURL* curl = curl_library().easy_init();
  Handle() {
    if (curl == nullptr) throw std::runtime_error("libcurl gives no handle");
  }
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  ~Handle() { curl_library().easy_cleanup(curl); }

  // An option that does not take would leave a door open, so it is never passed over. Values are long,
  // curl_off_t or pointers; the library reads them by the option and not by their type.
  template <class Value>
  void set(CURLoption option, Value value) {
    const CURLcode code = curl_library().easy_setopt(curl, option, value);
    if (code != CURLE_OK)
      throw std::runtime_error(std::string("libcurl: ") + curl_library().easy_strerror(code));
  }
};

CurlClient::CurlClient(std::string user_agent, const HttpLimits& limits, HttpDoors doors)
    : user_agent_(std::move(user_agent)), limits_(limits), doors_(std::move(doors)) {
  if (user_agent_.empty()) throw std::invalid_argument("a User-Agent is needed");
  check_plain(user_agent_, "the User-Agent");
  handle_ = std::make_unique<Handle>();
}

CurlClient::~CurlClient() = default;

HttpAnswer CurlClient::get(const HttpRequest& request) {
  check_plain(request.url, "the address");
  check_plain(request.key, "the key");
  check_plain(request.accept, "Accept");
  check_plain(request.if_modified_since, "If-Modified-Since");
  Handle& handle = *handle_;
  curl_library().easy_reset(handle.curl);  // keeps connections, drops options

  Receipt receipt;
  receipt.most_bytes = limits_.most_bytes;
  receipt.most_header_bytes = limits_.most_header_bytes;
  std::array<char, CURL_ERROR_SIZE> said{};
  ListOfHeaders headers;
  if (!request.accept.empty()) headers.add("Accept: " + request.accept);
  // Not by CURLOPT_TIMEVALUE: the service wants its own bytes back.
  if (!request.if_modified_since.empty()) headers.add("If-Modified-Since: " + request.if_modified_since);

  const char* allowed = doors_.http_on_loopback ? "http,https" : "https";
  std::string address = request.url;
  if (!request.key.empty()) address += (address.find('?') == std::string::npos ? '?' : '&') + request.key;
  handle.set(CURLOPT_URL, address.c_str());
  handle.set(CURLOPT_PROTOCOLS_STR, allowed);
  handle.set(CURLOPT_REDIR_PROTOCOLS_STR, allowed);
  handle.set(CURLOPT_FOLLOWLOCATION, 1L);
  handle.set(CURLOPT_MAXREDIRS, limits_.most_redirects);
  handle.set(CURLOPT_DISALLOW_USERNAME_IN_URL, 1L);
  handle.set(CURLOPT_NOSIGNAL, 1L);
  handle.set(CURLOPT_CONNECTTIMEOUT_MS, limits_.connect.count());
  handle.set(CURLOPT_TIMEOUT_MS, limits_.whole.count());
  handle.set(CURLOPT_LOW_SPEED_LIMIT, limits_.slow_bytes_per_second);
  handle.set(CURLOPT_LOW_SPEED_TIME, limits_.slow_for.count());
  handle.set(CURLOPT_MAXFILESIZE_LARGE, static_cast<curl_off_t>(limits_.most_bytes));
  handle.set(CURLOPT_USERAGENT, user_agent_.c_str());
  handle.set(CURLOPT_ACCEPT_ENCODING, "");
  handle.set(CURLOPT_HTTPHEADER, headers.first);
  handle.set(CURLOPT_SSLVERSION, static_cast<long>(CURL_SSLVERSION_TLSv1_2));
  handle.set(CURLOPT_SSL_VERIFYPEER, 1L);
  handle.set(CURLOPT_SSL_VERIFYHOST, 2L);
  if (!doors_.ca_file.empty()) handle.set(CURLOPT_CAINFO, doors_.ca_file.c_str());
  handle.set(CURLOPT_ERRORBUFFER, said.data());
  handle.set(CURLOPT_WRITEFUNCTION, &take_body);
  handle.set(CURLOPT_WRITEDATA, &receipt);
  handle.set(CURLOPT_HEADERFUNCTION, &take_header);
  handle.set(CURLOPT_HEADERDATA, &receipt);
  if (doors_.http_on_loopback) {
    handle.set(CURLOPT_PROXY, "");
    handle.set(CURLOPT_PREREQFUNCTION, &only_loopback);
    handle.set(CURLOPT_PREREQDATA, &receipt);
  }

  const CURLcode code = curl_library().easy_perform(handle.curl);
  long status = 0;
  long redirects = 0;
  (void)curl_library().easy_getinfo(handle.curl, CURLINFO_RESPONSE_CODE, &status);
  (void)curl_library().easy_getinfo(handle.curl, CURLINFO_REDIRECT_COUNT, &redirects);
  // These options point into this frame.
  curl_library().easy_setopt(handle.curl, CURLOPT_ERRORBUFFER, nullptr);
  curl_library().easy_setopt(handle.curl, CURLOPT_HTTPHEADER, nullptr);

  if (code != CURLE_OK) {
    std::string words = said[0] != '\0' ? said.data() : curl_library().easy_strerror(code);
    // The library knows only that it was stopped from here.
    if (receipt.too_big) {
      words = receipt.header_bytes > limits_.most_header_bytes
                  ? "headers without end"
                  : fmt::format("stopped at {} MB", limits_.most_bytes >> 20);
    }
    if (receipt.off_loopback) words = "not on this machine";
    return HttpFailure{trouble_of(code, receipt, redirects), without_queries(words)};
  }
  receipt.response.status = static_cast<int>(status);
  return std::move(receipt.response);
}

}  // namespace weatherstruck::feed
