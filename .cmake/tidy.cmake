# cmake -C .cmake/tidy.cmake -B build/tidy: what clang-tidy reads. A room at a time, since nine tenths
# of what it reads are headers.
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(SHANKLINE_UNITY ON CACHE BOOL "")
set(SHANKLINE_TESTS ON CACHE BOOL "")
set(SHANKLINE_EXACT_TESTS ON CACHE BOOL "")
