// For describe.h: what is described, const or not.
#pragma once

#include <concepts>
#include <type_traits>

namespace tacksquare {

template <class T, class S>
concept IsA = std::same_as<std::remove_const_t<T>, S>;

} // namespace tacksquare
