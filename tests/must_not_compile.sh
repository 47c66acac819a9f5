#!/bin/sh
# Tries every case of a source that must not compile, and that it compiles without one:
#
#   tests/must_not_compile.sh COMPILER SOURCE
set -u
compiler=$1
source=$2
root=$(cd "$(dirname "$0")/.." && pwd)

compiles() {
  "$compiler" -std=c++20 -fsyntax-only -I "$root" -DCASE="$1" "$source" 2>/dev/null
}

cases=$(sed -n 's/^#.*if CASE == //p' "$source")
if [ -z "$cases" ]; then
  echo "$source: no cases"
  exit 1
fi
if ! compiles 0; then
  echo "$source: does not compile without a case"
  exit 1
fi
accepted=
for case in $cases; do
  ! compiles "$case" || accepted="$accepted $case"
done
if [ -n "$accepted" ]; then
  echo "$source: the compiler accepts case$accepted"
  exit 1
fi
