# cmake -C .cmake/asan.cmake -B build/asan: address and undefined-behaviour sanitizers
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "")
set(SHANKLINE_SANITIZE "address,undefined" CACHE STRING "")
set(SHANKLINE_PRECOMPILED ON CACHE BOOL "")
set(SHANKLINE_UNITY ON CACHE BOOL "")
