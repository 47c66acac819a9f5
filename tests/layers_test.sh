#!/bin/sh
# Plants every fault that layers.sh is there for into a copy of the tree: each must be told, by
# name and alone.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
clean=$work/clean
copy=$work/copy
failed=0
planted=0

mkdir "$clean"
for entry in CMakeLists.txt README.md DEVELOPERS.md LICENSE geometry export cli tests samples; do
  [ ! -e "$root/$entry" ] || cp -R "$root/$entry" "$clean"
done
printf '/build/\n' >"$clean/.gitignore"
git -C "$clean" init -q
git -C "$clean" add -A

if ! "$clean/tests/layers.sh" "$clean"; then
  echo "layers.sh objects to the tree as it is"
  exit 1
fi

# fault WHAT FILE LINE: adds LINE to FILE; WHAT must then be the one complaint.
fault() {
  rm -rf "$copy"
  cp -R "$clean" "$copy"
  mkdir -p "$copy/$(dirname "$2")"
  printf '%s\n' "$3" >>"$copy/$2"
  git -C "$copy" add -A
  expect "$1"
}

expect() {
  planted=$((planted + 1))
  if said=$("$copy/tests/layers.sh" "$copy" 2>&1); then
    echo "not noticed: $1"
    failed=1
    return
  fi
  if [ "$(printf '%s\n' "$said" | wc -l)" -ne 1 ] ||
    ! printf '%s\n' "$said" | grep -qF "$1"; then
    echo "expected: $1"
    echo "said: $said"
    failed=1
  fi
}

fault 'geometry/planted.cpp:1: geometry/ may not include "export/line_kind.hpp"' \
  geometry/planted.cpp '#include "export/line_kind.hpp"'
fault 'geometry/ may not include "cli/message.hpp"' \
  geometry/planted.hpp '  #  include "cli/message.hpp"'
fault 'export/ may not include "cli/message.hpp"' \
  export/planted.cpp '#include"cli/message.hpp"'
fault 'export/ may not include "../cli/message.hpp"' \
  export/planted.hpp '#include "../cli/message.hpp"'
fault 'cli/ may not include "tests/support/process.hpp"' \
  cli/planted.cpp '#include "tests/support/process.hpp"'
fault 'our own <export/line_kind.hpp> is included in quotes' \
  geometry/planted.cpp '#include <export/line_kind.hpp>'

for header in CGAL/Polygon_2.h hpdf.h yaml-cpp/yaml.h CLI/CLI.hpp nettle/sha2.h nlohmann/json.hpp \
  boost/math/tools/roots.hpp unistd.h gtest/gtest.h; do
  fault "cli/planted.hpp:1: a header includes <$header>" cli/planted.hpp "#include <$header>"
done
for header in CGAL/Polygon_2.h hpdf.h yaml-cpp/yaml.h CLI/CLI.hpp nettle/sha2.h nlohmann/json.hpp; do
  fault "geometry/planted.cpp:1: <$header> is only for" geometry/planted.cpp "#include <$header>"
done

rm -rf "$copy"
cp -R "$clean" "$copy"
for name in one two three; do
  echo '#include <CGAL/Polygon_2.h>' >"$copy/geometry/${name}_cgal.cpp"
done
expect 'at most 2 are allowed'

fault 'geometry/CMakeLists.txt: geometry/ may not link shankline_export' \
  geometry/CMakeLists.txt 'target_link_libraries(shankline_geometry PRIVATE shankline_export)'
fault 'export/CMakeLists.txt: export/ may not link shankline_cli' \
  export/CMakeLists.txt 'target_link_libraries(shankline_export PRIVATE shankline_cli)'
fault 'geometry/planted.h: sources end in .cpp and headers in .hpp' geometry/planted.h ''
fault 'notes.txt: does not belong at the top' notes.txt 'x'
fault 'tools: does not belong at the top' tools/planted.sh 'x'

rm -rf "$copy"
cp -R "$clean" "$copy"
rm -r "$copy/cli"
expect 'cli/: only 0 source files'

if [ "$planted" -ne 28 ]; then
  echo "$planted faults were planted, not 28"
  failed=1
fi
exit $failed
