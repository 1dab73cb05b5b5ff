#include "loopback.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cstdint>
#include <memory>
#include <stdexcept>
#include <utility>

namespace weatherstruck::feed {
namespace {

constexpr int tick = 50;  // milliseconds between looks at the stop flag
constexpr std::size_t most_request = 65'536;
constexpr int longest_silence = 3'000 / tick;

// sockaddr_in by the cast that the interface of sockets wants, in one place.
sockaddr* general(sockaddr_in& address) {
  return static_cast<sockaddr*>(static_cast<void*>(&address));
}

bool readable(int socket, int milliseconds) {
  pollfd entry{socket, POLLIN, 0};
  return poll(&entry, 1, milliseconds) > 0;
}

}  // namespace

bool Connection::send(std::string_view bytes) {
  while (!bytes.empty()) {
    if (stopping_) return false;
    pollfd entry{socket_, POLLOUT, 0};
    if (poll(&entry, 1, tick) <= 0) continue;
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

bool Connection::wait(int milliseconds) {
  if (stopping_) return false;
  // The client sends nothing more, so that readable means closed.
  return !readable(socket_, milliseconds);
}

void Connection::say_nothing() {
  for (int i = 0; i < longest_silence && wait(tick); ++i) {
  }
}

LoopbackServer::LoopbackServer(Answer answer, const std::string& host)
    : host_(host), answer_(std::move(answer)) {
  listener_ = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = inet_addr(host.c_str());
  socklen_t length = sizeof address;
  if (listener_ < 0 || bind(listener_, general(address), sizeof address) != 0 || listen(listener_, 8) != 0 ||
      getsockname(listener_, general(address), &length) != 0) {
    throw std::runtime_error("no socket on " + host);
  }
  port_ = ntohs(address.sin_port);
  thread_ = std::thread([this] { run(); });
}

LoopbackServer::~LoopbackServer() {
  stopping_ = true;
  thread_.join();
  close(listener_);
}

void LoopbackServer::behave(Answer answer) {
  const std::lock_guard lock(mutex_);
  answer_ = std::move(answer);
}

std::string LoopbackServer::address() const {
  return "http://" + host_ + ":" + std::to_string(port_);
}

std::vector<std::string> LoopbackServer::requests() const {
  const std::lock_guard lock(mutex_);
  return requests_;
}

void LoopbackServer::run() {
  while (!stopping_) {
    if (!readable(listener_, tick)) continue;
    const int socket = accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
    if (socket < 0) continue;
    std::string request;
    while (!stopping_ && request.find("\r\n\r\n") == std::string::npos && request.size() < most_request) {
      if (!readable(socket, tick)) continue;
      std::string piece(4096, '\0');
      const ssize_t got = recv(socket, piece.data(), piece.size(), 0);
      if (got <= 0) break;
      request.append(piece, 0, static_cast<std::size_t>(got));
    }
    Answer answer;
    {
      const std::lock_guard lock(mutex_);
      if (!request.empty()) requests_.push_back(request);
      answer = answer_;
    }
    if (!request.empty()) {
      Connection connection(socket, stopping_);
      answer(connection, request);
    }
    close(socket);
  }
}

std::string gzip_of_zeros(std::size_t count) {
  std::string out("\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\xff", 10);
  std::uint32_t held = 0;
  int bits = 0;
  const auto put = [&](std::uint32_t value, int width) {
    held |= value << bits;
    for (bits += width; bits >= 8; bits -= 8) {
      out += static_cast<char>(held & 0xffU);
      held >>= 8;
    }
  };
  // Huffman codes go in from their highest bit.
  const auto put_code = [&](std::uint32_t code, int width) {
    for (int i = width - 1; i >= 0; --i)
      put(code >> i & 1U, 1);
  };
  const auto put_zero = [&] { put_code(0x30, 8); };
  put(1, 1);  // the last block
  put(1, 2);  // of fixed codes
  put_zero();
  std::size_t left = count - 1;
  for (; left >= 258; left -= 258) {
    put_code(0xc5, 8);  // 285: a run of 258 ...
    put_code(0, 5);     // ... of what stands one back
  }
  for (; left > 0; --left)
    put_zero();
  put_code(0, 7);
  if (bits > 0) put(0, 8 - bits);

  std::array<std::uint32_t, 256> table{};
  for (std::uint32_t i = 0; i < table.size(); ++i) {
    table[i] = i;
    for (int bit = 0; bit < 8; ++bit)
      table[i] = (table[i] >> 1) ^ ((table[i] & 1U) != 0 ? 0xedb88320U : 0U);
  }
  std::uint32_t crc = 0xffffffffU;
  for (std::size_t i = 0; i < count; ++i)
    crc = (crc >> 8) ^ table[crc & 0xffU];
  crc ^= 0xffffffffU;
  for (int shift = 0; shift < 32; shift += 8)
    out += static_cast<char>(crc >> shift & 0xffU);
  for (int shift = 0; shift < 32; shift += 8)
    out += static_cast<char>(count >> shift & 0xffU);
  return out;
}

}  // namespace weatherstruck::feed
