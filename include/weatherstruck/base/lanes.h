#pragma once
// Work that may be done side by side, for floors that know nothing of threads.
#include <cstddef>
#include <functional>
#include <utility>

namespace weatherstruck::base {

/// Where pieces of work that know nothing of each other are done: by one lane in order, or by several at
/// once. Each piece writes what it yields to a place of its own, so that the answer is the same to the byte
/// however many lanes there are.
class Lanes {
 public:
  /// `lane` is below count(); a lane does one piece at a time, so what is kept by lane needs no guard.
  using Piece = std::function<void(std::size_t piece, std::size_t lane)>;
  /// Calls it once for each number below `pieces`, and returns when all are done.
  using Run = std::function<void(std::size_t pieces, const Piece& piece)>;

  /// One lane: in order, by whoever asks.
  Lanes() = default;
  /// @param count at least 1
  /// @param run where a piece throws, it throws that too, once no piece is under way
  Lanes(std::size_t count, Run run) : count_(count), run_(std::move(run)) {}

  [[nodiscard]] std::size_t count() const { return count_; }
  void each(std::size_t pieces, const Piece& piece) const {
    if (run_) {
      run_(pieces, piece);
      return;
    }
    for (std::size_t i = 0; i < pieces; ++i)
      piece(i, 0);
  }

 private:
  std::size_t count_ = 1;
  Run run_;
};

}  // namespace weatherstruck::base
