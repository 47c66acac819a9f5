// A shared library that is loaded only where it is needed, so that other runs do not pay for it.
#pragma once

namespace shankline {

/// Base of a table of a library's functions. The library stays loaded: libraries have handlers of
/// their own for the end of the program.
class LoadedLibrary {
protected:
  /// `file` is a soname such as "libpq.so.5". Throws FileFault where too many files are open.
  explicit LoadedLibrary(const char* file);

  /// Returns false if the library is missing.
  bool loaded() const { return library_ != nullptr; }

  /// Sets `function`. Returns false if the library has none of that name.
  template <class Function> bool look_up(Function& function, const char* name) {
    function = reinterpret_cast<Function>(address_of(name));
    return function != nullptr;
  }

private:
  void* address_of(const char* name) const;

  void* library_;
};

} // namespace shankline
