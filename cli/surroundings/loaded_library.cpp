#include "cli/surroundings/loaded_library.hpp"

#include <dlfcn.h>

namespace shankline {

LoadedLibrary::LoadedLibrary(const char* file) : library_(dlopen(file, RTLD_NOW | RTLD_LOCAL)) {}

void* LoadedLibrary::address_of(const char* name) const {
  return dlsym(library_, name);
}

} // namespace shankline
