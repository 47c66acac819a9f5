# cmake -C .cmake/coverage.cmake -B build/coverage: counts which lines the tests reach
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS "--coverage -fprofile-update=atomic" CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O0" CACHE STRING "")
