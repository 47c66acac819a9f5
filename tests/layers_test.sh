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

# The graph names every room once and, in its line, earlier rooms only.
sh "$root/tests/layers.sh" --graph "$copy" | awk '
  {
    sub(/:$/, "", $1)
    for (i = 2; i <= NF; ++i) if (!($i in seen)) { print $1 " uses the later room " $i; bad = 1 }
    seen[$1] = 1
  }
  END { exit bad || !("geometry/numerics" in seen) || !("cli/command_line" in seen) }' || {
  echo 'the graph of the rooms is wrong'
  failed=1
}

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

fault 'geometry/plane/planted.cpp:1: geometry/ may not include "export/line_kind.hpp"' \
  geometry/plane/planted.cpp '#include "export/line_kind.hpp"'
fault 'geometry/ may not include "cli/message.hpp"' \
  geometry/plane/planted.hpp '  #  include "cli/message.hpp"'
fault 'export/ may not include "cli/message.hpp"' \
  export/drawing/planted.cpp '#include"cli/message.hpp"'
fault 'export/ may not include "../cli/message.hpp"' \
  export/drawing/planted.hpp '#include "../cli/message.hpp"'
fault 'cli/ may not include "tests/support/process.hpp"' \
  cli/text/planted.cpp '#include "tests/support/process.hpp"'
fault 'our own <export/line_kind.hpp> is included in quotes' \
  geometry/plane/planted.cpp '#include <export/line_kind.hpp>'

fault 'geometry/planted.cpp: stands in no room of geometry/' geometry/planted.cpp ''
fault 'cli/attic/planted.hpp: stands in no room of cli/' cli/attic/planted.hpp ''
fault 'geometry/board/planted.cpp:1: the room board may not include "geometry/sides/side_cut.hpp"' \
  geometry/board/planted.cpp '#include "geometry/sides/side_cut.hpp"'
fault 'the room bench_files may not include "cli/archive/archive_store.hpp": archive comes after it' \
  cli/bench_files/planted.hpp '#include "cli/archive/archive_store.hpp"'

for header in CGAL/Polygon_2.h hpdf.h fontconfig/fontconfig.h yaml-cpp/yaml.h CLI/CLI.hpp \
  nettle/sha2.h nlohmann/json.hpp boost/math/tools/roots.hpp unistd.h gtest/gtest.h; do
  fault "cli/text/planted.hpp:1: a header includes <$header>" cli/text/planted.hpp "#include <$header>"
done
for header in CGAL/Polygon_2.h hpdf.h fontconfig/fontconfig.h yaml-cpp/yaml.h CLI/CLI.hpp \
  nettle/sha2.h nlohmann/json.hpp; do
  fault "geometry/plane/planted.cpp:1: <$header> is only for" geometry/plane/planted.cpp "#include <$header>"
done

for name in one two three; do
  echo '#include <CGAL/Polygon_2.h>' >"$copy/geometry/plane/${name}_cgal.cpp"
done
expect 'at most 2 are allowed'

fault 'geometry/CMakeLists.txt: geometry/ may not link shankline_export' \
  geometry/CMakeLists.txt 'target_link_libraries(shankline_geometry PRIVATE shankline_export)'
fault 'export/CMakeLists.txt: export/ may not link shankline_cli' \
  export/CMakeLists.txt 'target_link_libraries(shankline_export PRIVATE shankline_cli)'
fault 'geometry/plane/planted.h: sources end in .cpp and headers in .hpp' geometry/plane/planted.h ''
fault 'notes.txt: does not belong at the top' notes.txt 'x'
fault 'tools: does not belong at the top' tools/planted.sh 'x'

rm -r "$copy/cli"
expect 'cli/: only 0 source files'

if [ "$planted" -ne 34 ]; then
  echo "$planted faults were planted, not 34"
  failed=1
fi
exit $failed
