#!/bin/sh
# Sheets and figures of every sample, the same to the last byte from every build:
#
#   sh tests/same_bytes.sh BUILD OTHER...
set -eu
here=$(pwd)
cd "$(dirname "$0")/.."
aside=$(mktemp -d)
trap 'rm -rf "$aside"' EXIT
export HOME="$aside" SOURCE_DATE_EPOCH=1773480413

# bytes_of BUILD FOLDER: what it makes of every order among the samples, and how it ended.
bytes_of() {
  case $1 in
    /*) program=$1/cli/shankline ;;
    *) program=$here/$1/cli/shankline ;;
  esac
  mkdir "$2"
  for sample in samples/*.yaml samples/pairs/*.yaml samples/mistakes/*.yaml; do
    name=$(basename "$sample")
    code=0
    "$program" cut "$sample" --json -o "$2/$name.pdf" >"$2/$name.json" 2>"$2/$name.said" || code=$?
    echo "$code" >"$2/$name.code"
  done
  # The names of what was written say where it was written.
  find "$2" -type f \( -name '*.json' -o -name '*.said' \) -exec sed -i "s|$2/||g" {} +
}

bytes_of "$1" "$aside/first"
sheets=$(find "$aside/first" -name '*.pdf' | wc -l)
if [ "$sheets" -lt 8 ]; then
  echo "only $sheets samples gave sheets"
  exit 1
fi
shift
for build in "$@"; do
  bytes_of "$build" "$aside/other"
  diff -r "$aside/first" "$aside/other" || exit 1
  rm -r "$aside/other"
  echo "$build: $sheets sheets, figures and messages are the same"
done
