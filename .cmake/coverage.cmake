# cmake -C .cmake/coverage.cmake -B build/coverage: counts which lines the tests reach
# Not -O0: the longest suites would take twenty times as long as in a release build.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS "--coverage -fprofile-update=atomic" CACHE STRING "")
# g++ 12 suspects values of std::optional at -O1 alone.
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -Wno-maybe-uninitialized" CACHE STRING "")
set(SHANKLINE_UNITY ON CACHE BOOL "")
