// Catch2 2.x needs a main of ours; 3.x brings its own and this file is not built.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
