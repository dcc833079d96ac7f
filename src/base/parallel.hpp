// Blocks of independent work shared over threads. Private.
//
// Which thread takes which block is chance; what a block computes must depend on its number alone.
#pragma once

#include <cstddef>
#include <functional>

namespace gelwright::detail {

/// Calls `work(block)` once for each block in [0, blocks) on at most `threads` threads, this one
/// included (0 = as many as the machine has). Returns when all are done. If any block throws, the
/// exception of the lowest of those blocks is thrown here and blocks not yet begun are left out.
/// `progress`, where given, is called on this thread between blocks with the share begun, 0 to 1.
void for_each_block(std::size_t blocks, unsigned threads,
                    const std::function<void(std::size_t)>& work,
                    const std::function<void(double)>& progress = {});

/// The thread count that 0 stands for.
unsigned usable_threads(unsigned asked);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
