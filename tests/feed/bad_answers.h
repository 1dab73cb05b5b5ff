#pragma once
// Answers of a server, good and bad, byte for byte.
#include <atomic>
#include <memory>
#include <string>
#include <utility>

#include "loopback.h"

namespace weatherstruck::feed {

constexpr std::size_t megabyte = 1'000'000;

inline std::string head(const std::string& status, const std::string& headers = {}) {
  return "HTTP/1.1 " + status + "\r\n" + headers + "Connection: close\r\n";
}

inline std::string whole(const std::string& status, const std::string& body,
                         const std::string& headers = {}) {
  return head(status, headers) + "Content-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body;
}

inline LoopbackServer::Answer always(std::string bytes) {
  return [bytes = std::move(bytes)](Connection& connection, const std::string&) { connection.send(bytes); };
}

/// A body in chunks of 64 KiB with no length announced; `sent` counts what went into the socket.
inline LoopbackServer::Answer chunks(std::size_t most, std::shared_ptr<std::atomic<std::size_t>> sent) {
  return [most, sent = std::move(sent)](Connection& connection, const std::string&) {
    const std::string chunk = "10000\r\n" + std::string(0x10000, ' ') + "\r\n";
    bool open = connection.send(head("200 OK", "Transfer-Encoding: chunked\r\n") + "\r\n");
    while (open && *sent < most) {
      open = connection.send(chunk);
      if (open) *sent += 0x10000;
    }
    if (open) connection.send("0\r\n\r\n");
  };
}

/// Ten bytes a second of a long body, for six seconds at most.
inline LoopbackServer::Answer drip() {
  return [](Connection& connection, const std::string&) {
    bool open = connection.send(head("200 OK", "Content-Length: 9999\r\n") + "\r\n");
    for (int i = 0; open && i < 60; ++i)
      open = connection.send(" ") && connection.wait(100);
  };
}

inline LoopbackServer::Answer silence() {
  return [](Connection& connection, const std::string&) { connection.say_nothing(); };
}

}  // namespace weatherstruck::feed
