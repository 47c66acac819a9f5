#include "cli/surroundings/loaded_library.hpp"

#include "export/formats/system_reason.hpp"
#include "export/formats/whole_file.hpp"

#include <dlfcn.h>

namespace shankline {

LoadedLibrary::LoadedLibrary(const char* file) : library_(dlopen(file, RTLD_NOW | RTLD_LOCAL)) {
  if (library_) return;
  // A library that is there must not be called missing.
  if (const int error = why_no_handle()) throw file_fault(file, "cannot be loaded", error);
}

void* LoadedLibrary::address_of(const char* name) const {
  return dlsym(library_, name);
}

} // namespace shankline
