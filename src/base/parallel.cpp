#include "base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <limits>
#include <mutex>
#include <thread>
#include <vector>

namespace gelwright::detail {

unsigned usable_threads(unsigned asked) {
  if (asked > 0) return asked;
  return std::max(1u, std::thread::hardware_concurrency());
}

void for_each_block(std::size_t blocks, unsigned threads,
                    const std::function<void(std::size_t)>& work,
                    const std::function<void(double)>& progress) {
  std::atomic<std::size_t> next = 0;
  std::atomic<bool> failed = false;
  std::mutex guard;
  std::size_t failed_block = std::numeric_limits<std::size_t>::max();
  std::exception_ptr failure;

  const auto take_blocks = [&](bool reports) {
    // Blocks are handed out in order, so every block below one that failed has been begun and
    // will be finished: the lowest failure is the same for any number of threads.
    while (!failed.load(std::memory_order_relaxed)) {
      const std::size_t block = next.fetch_add(1, std::memory_order_relaxed);
      if (block >= blocks) return;
      if (reports && progress) progress(static_cast<double>(block) / static_cast<double>(blocks));
      try {
        work(block);
      } catch (...) {
        const std::lock_guard lock(guard);
        if (block < failed_block) {
          failed_block = block;
          failure = std::current_exception();
        }
        failed = true;
      }
    }
  };

  const std::size_t helpers = std::min<std::size_t>(usable_threads(threads), blocks);
  {
    std::vector<std::jthread> pool;
    for (std::size_t i = 1; i < helpers; ++i) pool.emplace_back(take_blocks, false);
    take_blocks(true);
  }
  if (failure) std::rethrow_exception(failure);
}

}  // namespace gelwright::detail
