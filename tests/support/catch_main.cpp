// Catch2 2 wants its main compiled by the user; Catch2 3 brings one in a library.
#ifdef TACKSQUARE_CATCH2_V2
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
#endif
