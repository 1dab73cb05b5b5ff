#pragma once
// A server on 127.0.0.1 that behaves as badly as it is told, and the packing of a body that grows.
#include <atomic>
#include <cstddef>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

namespace weatherstruck::feed {

/// One connection, from the server's side.
class Connection {
 public:
  Connection(int socket, const std::atomic<bool>& stopping) : socket_(socket), stopping_(stopping) {}
  /// False once the other side is gone or the server is stopping.
  bool send(std::string_view bytes);
  /// Waits on the socket for the other side to go. False once it has, or the server is stopping.
  bool wait(int milliseconds);
  /// Until the other side gives up; three seconds at most.
  void say_nothing();

 private:
  int socket_;
  const std::atomic<bool>& stopping_;
};

/// Answers one connection after the other on a thread of its own.
class LoopbackServer {
 public:
  /// @param answer gets the whole request text; the connection is closed after it returns
  using Answer = std::function<void(Connection& connection, const std::string& request)>;
  /// @param host an address of this machine, 127.x.x.x
  explicit LoopbackServer(Answer answer, const std::string& host = "127.0.0.1");
  ~LoopbackServer();
  LoopbackServer(const LoopbackServer&) = delete;
  LoopbackServer& operator=(const LoopbackServer&) = delete;

  /// From now on.
  void behave(Answer answer);
  [[nodiscard]] int port() const { return port_; }
  /// "http://HOST:PORT"
  [[nodiscard]] std::string address() const;
  /// The requests so far.
  [[nodiscard]] std::vector<std::string> requests() const;

 private:
  void run();
  std::string host_;
  int listener_ = -1;
  int port_ = 0;
  std::atomic<bool> stopping_{false};
  mutable std::mutex mutex_;
  Answer answer_;
  std::vector<std::string> requests_;
  std::thread thread_;
};

/// `count` zeros as gzip (RFC 1951, 1952) in fixed Huffman codes: 258 of them in 13 bits. At least one.
[[nodiscard]] std::string gzip_of_zeros(std::size_t count);

/// openssl's own server on 127.0.0.1 for the files of a folder, each a whole HTTP response.
class TlsServer {
 public:
  /// @param host the name in the certificate. See ok().
  TlsServer(const std::string& folder, const std::string& host);
  ~TlsServer();
  TlsServer(const TlsServer&) = delete;
  TlsServer& operator=(const TlsServer&) = delete;
  /// False where the openssl command is missing or does not start.
  [[nodiscard]] bool ok() const { return port_ != 0; }
  [[nodiscard]] int port() const { return port_; }
  /// Its certificate, PEM.
  [[nodiscard]] const std::string& certificate() const { return certificate_; }

 private:
  int process_ = 0;
  int port_ = 0;
  std::string certificate_;
};

}  // namespace weatherstruck::feed
