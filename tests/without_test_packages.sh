#!/bin/sh
# Without the packages that only the tests want, the program can be configured all the same, and the
# message names them; asked for by name, the tests are an error.
#
#   tests/without_test_packages.sh FOLDER
set -u
root=$(cd "$(dirname "$0")/.." && pwd)
build=$1/without_test_packages
log=$1/without_test_packages.log
rm -rf "$build"

configure() {
  cmake -G Ninja -S "$root" -B "$build" -DCMAKE_DISABLE_FIND_PACKAGE_GTest=ON "$@" >"$log" 2>&1
}

configure || { cat "$log"; echo 'not configured'; exit 1; }
grep -q 'want these Debian packages: libgtest-dev' "$log" || { cat "$log"; echo 'not said'; exit 1; }
! grep -q 'gtest' "$build/build.ninja" || { echo 'built all the same'; exit 1; }
! configure -DSHANKLINE_TESTS=ON || { echo 'accepted when asked for'; exit 1; }
rm -rf "$build"
