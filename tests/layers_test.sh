#!/bin/sh
# Plants every fault that layers.sh is there for into a copy of the tree: each must be told, by
# name and alone.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
# Inside a hook of git these would point at the real repository.
unset GIT_DIR GIT_WORK_TREE GIT_INDEX_FILE
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT
trap 'exit 1' HUP INT TERM
failed=0
planted=0

mkdir "$copy/tests"
for entry in CMakeLists.txt README.md DEVELOPERS.md LICENSE geometry export cli samples; do
  [ ! -e "$root/$entry" ] || cp -R "$root/$entry" "$copy"
done
cp "$root/tests/layers.sh" "$copy/tests"

in_copy() {
  git -C "$copy" -c user.name=tests -c user.email=tests -c commit.gpgsign=false "$@"
}
in_copy init -q
in_copy add -A
in_copy commit -q -m 'The tree as it is'

layers() {
  sh "$root/tests/layers.sh" "$copy" 2>&1
}

if ! layers; then
  echo "layers.sh objects to the tree as it is"
  exit 1
fi

# expect WHAT: it is the one complaint. The copy is clean again afterwards.
expect() {
  planted=$((planted + 1))
  in_copy add -A
  if said=$(layers); then
    echo "not noticed: $1"
    failed=1
  elif [ "$(printf '%s\n' "$said" | wc -l)" -ne 1 ] ||
    ! printf '%s\n' "$said" | grep -qF "$1"; then
    echo "expected: $1"
    echo "said: $said"
    failed=1
  fi
  in_copy reset -q --hard
}

# fault WHAT FILE LINE: adds LINE to FILE, and expects WHAT.
fault() {
  mkdir -p "$copy/$(dirname "$2")"
  printf '%s\n' "$3" >>"$copy/$2"
  expect "$1"
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

for header in CGAL/Polygon_2.h hpdf.h fontconfig/fontconfig.h yaml-cpp/yaml.h CLI/CLI.hpp \
  nettle/sha2.h nlohmann/json.hpp boost/math/tools/roots.hpp unistd.h gtest/gtest.h; do
  fault "cli/planted.hpp:1: a header includes <$header>" cli/planted.hpp "#include <$header>"
done
for header in CGAL/Polygon_2.h hpdf.h fontconfig/fontconfig.h yaml-cpp/yaml.h CLI/CLI.hpp \
  nettle/sha2.h nlohmann/json.hpp; do
  fault "geometry/planted.cpp:1: <$header> is only for" geometry/planted.cpp "#include <$header>"
done

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

rm -r "$copy/cli"
expect 'cli/: only 0 source files'

if [ "$planted" -ne 30 ]; then
  echo "$planted faults were planted, not 30"
  failed=1
fi
exit $failed
