# cmake -C .cmake/bench.cmake -B build/bench: release with the benchmarks
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(SHANKLINE_BENCH ON CACHE BOOL "")
set(SHANKLINE_TESTS OFF CACHE BOOL "")
