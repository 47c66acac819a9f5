#!/bin/sh
# Counts the instructions that the sample's `cut` takes, by callgrind: the same number whatever else the
# machine does. Fails when it is more than a tenth above the record, or so far below that the record
# no longer holds anything.
#
#   tests/instructions.sh PROGRAM [--record]
set -u
program=$1
here=$(cd "$(dirname "$0")" && pwd)
record=$here/instructions.txt
scratch=$(mktemp -d) || exit 1
trap 'rm -rf "$scratch"' EXIT

cp "$here/../samples/plain.yaml" "$scratch/order.yaml" || exit 1
cd "$scratch" || exit 1
env -i HOME="$scratch" LC_ALL=C valgrind --tool=callgrind --callgrind-out-file=counted \
  "$program" cut order.yaml -q -o order.pdf >said 2>&1 || {
  cat said
  exit 1
}
head -c 4 order.pdf | grep -q %PDF || exit 1
now=$(sed -n 's/^\(summary\|totals\): //p' counted | head -n 1)
if [ "${2:-}" = --record ]; then
  printf '%s\n' "$now" >"$record"
  exit 0
fi
then=$(cat "$record") || exit 1
echo "instructions: $now, on record $then"
if [ "$now" -gt $((then + then / 10)) ]; then
  echo 'More than a tenth above the record. Mend it, or say why and run tests/instructions.sh PROGRAM --record'
  exit 1
fi
if [ "$now" -lt $((then - then / 5)) ]; then
  echo 'A fifth below the record: well done, now record it with --record'
  exit 1
fi
