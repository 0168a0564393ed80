// Catch2, whichever of its two majors the system has.
#pragma once
#ifdef TACKSQUARE_CATCH2_V2
#include <catch2/catch.hpp>
#else
#include <catch2/catch_all.hpp>
using Catch::Approx;
#endif
