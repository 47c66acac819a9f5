# cmake -G Ninja -C .cmake/dynamic.cmake -B build/dynamic
# The program for a Debian package: every library is the distribution's, so that its security updates
# reach it.
include(${CMAKE_CURRENT_LIST_DIR}/release.cmake)
set(SHANKLINE_STATIC_RUNTIME OFF CACHE BOOL "")
set(SHANKLINE_TESTS OFF CACHE STRING "")
