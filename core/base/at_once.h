// Two things at once.
#pragma once

#include <future>
#include <utility>

namespace tacksquare {

// Both are done when it returns, the second beside the first where the machine can. Neither may change what
// the other looks at: then all comes out as one after the other. Throws what they throw, the first's before
// the second's.
template <class First, class Second> void at_once(First&& first, Second&& second) {
  std::future<void> other =
      std::async(std::launch::async | std::launch::deferred, std::forward<Second>(second));
  std::forward<First>(first)();
  other.get();
}

} // namespace tacksquare
