#pragma once
// The processors of the machine, for pieces of a plan that can be made side by side.
#include <cstddef>

#include "weatherstruck/base/lanes.h"

namespace weatherstruck::desk {

/// Lanes of as many threads, the one that asks among them. They live as long as what is returned, and its
/// copies. One thing at a time is asked of them: a piece that asks in turn does its own pieces in order.
/// @param count 0 counts as 1
/// @throws std::system_error where the system gives no thread
[[nodiscard]] base::Lanes workers(std::size_t count);

/// As many as the process may use, up to eight: kept until it ends. Fewer where the system gives no more.
[[nodiscard]] const base::Lanes& all_workers();

}  // namespace weatherstruck::desk
