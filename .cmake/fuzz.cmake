# cmake -C .cmake/fuzz.cmake -B build/fuzz: the fuzzers of tests/fuzz, everything instrumented
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "")
set(SHANKLINE_SANITIZE "address,undefined,fuzzer-no-link" CACHE STRING "")
set(SHANKLINE_FUZZ ON CACHE BOOL "")
