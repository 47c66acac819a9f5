# cmake -C .cmake/clang.cmake -B build/clang: release with the other compiler
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
