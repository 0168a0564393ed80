// Two things at once.
#pragma once

#include <cstddef>
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

// each(i) for every i below count, two at once.
template <class Each> void each_at_once(std::size_t count, Each&& each) {
  const auto every_other = [&](std::size_t from) {
    for (std::size_t i = from; i < count; i += 2)
      each(i);
  };
  at_once([&] { every_other(0); }, [&] { every_other(1); });
}

} // namespace tacksquare
