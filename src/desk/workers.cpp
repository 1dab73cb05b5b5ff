#include "weatherstruck/desk/workers.h"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <exception>
#include <memory>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace weatherstruck::desk {
namespace {

// More gain little: a plan has some tens of pieces, and the longest of them sets the time.
constexpr std::size_t most_workers = 8;

class Pool {
 public:
  explicit Pool(std::size_t count) {
    try {
      for (std::size_t lane = 1; lane < count; ++lane)
        threads_.emplace_back([this, lane] { wait_for_work(lane); });
    } catch (...) {
      dismiss();
      throw;
    }
  }
  ~Pool() { dismiss(); }
  Pool(const Pool&) = delete;
  Pool& operator=(const Pool&) = delete;
  Pool(Pool&&) = delete;
  Pool& operator=(Pool&&) = delete;

  void each(std::size_t pieces, const base::Lanes::Piece& piece) {
    // Asked by a piece of what is under way, or too little to share.
    if (pieces < 2 || taken_.exchange(true)) {
      for (std::size_t i = 0; i < pieces; ++i)
        piece(i, 0);
      return;
    }
    std::unique_lock lock(mutex_);
    piece_ = &piece;
    pieces_ = pieces;
    next_ = 0;
    busy_ = threads_.size();
    failed_ = nullptr;
    ++round_;
    lock.unlock();
    begun_.notify_all();
    work(0);
    lock.lock();
    done_.wait(lock, [&] { return busy_ == 0; });
    const std::exception_ptr failed = failed_;
    lock.unlock();
    taken_ = false;
    if (failed) std::rethrow_exception(failed);
  }

 private:
  void wait_for_work(std::size_t lane) {
    for (unsigned seen = 0;;) {
      {
        std::unique_lock lock(mutex_);
        begun_.wait(lock, [&] { return dismissed_ || round_ != seen; });
        if (dismissed_) return;
        seen = round_;
      }
      work(lane);
      const std::lock_guard lock(mutex_);
      if (--busy_ == 0) done_.notify_one();
    }
  }

  void work(std::size_t lane) {
    for (;;) {
      const std::size_t piece = next_++;
      if (piece >= pieces_) return;
      try {
        (*piece_)(piece, lane);
      } catch (...) {
        const std::lock_guard lock(mutex_);
        if (!failed_) failed_ = std::current_exception();
        next_ = pieces_;
      }
    }
  }

  void dismiss() {
    {
      const std::lock_guard lock(mutex_);
      dismissed_ = true;
    }
    begun_.notify_all();
    for (std::thread& thread : threads_)
      thread.join();
    threads_.clear();
  }

  std::atomic<bool> taken_ = false;
  std::mutex mutex_;
  std::condition_variable begun_, done_;
  const base::Lanes::Piece* piece_ = nullptr;  // written while no lane works
  std::size_t pieces_ = 0;                     // likewise
  std::atomic<std::size_t> next_ = 0;
  std::size_t busy_ = 0;
  unsigned round_ = 0;
  bool dismissed_ = false;
  std::exception_ptr failed_;
  std::vector<std::thread> threads_;
};

}  // namespace

base::Lanes workers(std::size_t count) {
  if (count < 2) return {};
  auto pool = std::make_shared<Pool>(count);
  return {count, [pool](std::size_t pieces, const base::Lanes::Piece& piece) { pool->each(pieces, piece); }};
}

const base::Lanes& all_workers() {
  static const base::Lanes lanes = [] {
    try {
      return workers(std::min<std::size_t>(std::thread::hardware_concurrency(), most_workers));
    } catch (const std::system_error&) {
      return base::Lanes();
    }
  }();
  return lanes;
}

}  // namespace weatherstruck::desk
