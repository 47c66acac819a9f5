# cmake -C .cmake/release.cmake -B build/release
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(SHANKLINE_PRECOMPILED ON CACHE BOOL "")
set(SHANKLINE_UNITY ON CACHE BOOL "")
