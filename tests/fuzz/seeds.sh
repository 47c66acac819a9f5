#!/bin/sh
# Makes the seeds of each fuzzer from the samples, by the program itself:
#
#   sh tests/fuzz/seeds.sh PROGRAM FOLDER     fills FOLDER/NAME_fuzz
set -eu
program=$(realpath "$1")
cd "$(dirname "$0")/../.."
mkdir -p "$2"
seeds=$(realpath "$2")
aside=$(mktemp -d)
trap 'rm -rf "$aside"' EXIT
for fuzzer in order bench_file quantity printer roster settings page bundle entry; do
  mkdir -p "$seeds/${fuzzer}_fuzz"
done

# begun DIGIT FILE NAME...: the file behind a digit that chooses what is tried.
begun() {
  { printf '%s' "$1"; cat "$2"; } >"$seeds/$3"
}

cp samples/*.yaml samples/mistakes/*.yaml "$seeds/order_fuzz"
for file in samples/pairs/*.yaml; do
  begun 0 "$file" "bench_file_fuzz/worn_$(basename "$file")"
  begun 1 "$file" "bench_file_fuzz/made_$(basename "$file")"
done
printf 'schedule: shankline-schedule/1\ndays:\n  - {day: 2027-01-04, hours: 3}\n' >"$aside/schedule.yaml"
printf 'day,hours,stage,at,dancer\n2027-01-04,3,no,19:30,M-07\n' >"$aside/schedule.csv"
begun 2 "$aside/schedule.yaml" bench_file_fuzz/schedule.yaml
begun 3 "$aside/schedule.csv" bench_file_fuzz/schedule.csv
for file in samples/roster/*.csv; do
  [ ! -e "$file" ] || cp "$file" "$seeds/roster_fuzz"
done

printf 'paper: letter\nunits: in\nprinter: hall\narchive: postgresql://bench@host/shankline\nclimate: 1.5\nlead_time: 21\n' \
  >"$aside/config.yaml"
begun 0 "$aside/config.yaml" settings_fuzz/config.yaml
printf '1se@cr:et?password=more/#' >"$seeds/settings_fuzz/secret"

# Requests of the page: an order in JSON behind the digit of what is asked.
for digit in 0 1 2 3 4 5 6 7 8; do
  printf '%s{"text": "dancer: M-07\\nfeet:\\n  left: {length: 238, heel_front: 61}\\n", "cut": "52", "seen": "good", "foot": "left", "format": "svg"}' \
    "$digit" >"$seeds/page_fuzz/text$digit"
  printf '%s{"document": {"format": "shankline-order/1", "dancer": "M-07", "pose": "pointed", "feet": {"left": {"length": ["238", "238.5"], "ball_length": "172", "heel_front": "61", "arch_break": {"medial": "97", "lateral": "93"}, "arch_depth": "12.5", "fold": "6"}}, "shoe": {"board": {"state": "loose", "length": "220", "inset": "5", "thickness": "3.2", "widths": [["22", "45"], ["96", "33"], ["164", "56"]]}}, "alterations": {"shank": {"reach": "edge", "bevel": "12"}}}, "seen": "too-low", "cut": "50", "foot": "left", "format": "dxf"}' \
    "$digit" >"$seeds/page_fuzz/form$digit"
done

number=0
for words in '0238' '023.8 cm' '09 3/8 in' '0-5 mm' '110 deg' '115°' '20.12' '212.5 %' '3100 g' \
  '30.1 kg' '42.75' '5a4' '5letter' '5roll:914' '5roll:36in' '5roll:91.4cm'; do
  number=$((number + 1))
  printf '%s' "$words" >"$seeds/quantity_fuzz/$number"
done

XDG_CONFIG_HOME="$aside" "$program" printer hall --measured 160.1,213.4,266.8,266.7 >/dev/null
cp "$aside/shankline/printers/hall.yaml" "$seeds/printer_fuzz/hall"

archive=$aside/archive.sqlite
export SOURCE_DATE_EPOCH=1773480413
"$program" archive save samples/plain.yaml --archive "$aside/one.sqlite" >/dev/null
"$program" archive export --dancer M-07 --archive "$aside/one.sqlite" >"$seeds/bundle_fuzz/one"
for sample in plain sides_lowered; do
  "$program" archive save "samples/$sample.yaml" --archive "$archive" >/dev/null
done
"$program" archive note 1 --foot left --seen right --cut 52.5 --gap 2 --words 'held' --archive "$archive" >/dev/null
bundle=$seeds/bundle_fuzz/bundle
"$program" archive export --archive "$archive" >"$bundle"

# The first drawing in it, as it is stored and before it was deflated; then texts and JSON.
sed -n '/^drawing: |/,/^---/{/^  /p}' "$bundle" | sed -n '1,/=\{1,2\}$/p' | base64 -di \
  >"$aside/drawing"
begun 0 "$aside/drawing" entry_fuzz/drawing
tail -n +2 "$aside/drawing" | zlib-flate -uncompress >"$aside/inflated"
begun 1 "$aside/inflated" entry_fuzz/inflated
"$program" check samples/plain.yaml --json >"$aside/solution"
begun 2 "$aside/solution" entry_fuzz/solution
sed -n 's/^outcome: "\(.*\)"$/\1/p' "$bundle" | sed 's/\\"/"/g' >"$aside/outcome"
begun 2 "$aside/outcome" entry_fuzz/outcome
for sample in samples/*.yaml; do
  begun 3 "$sample" "entry_fuzz/$(basename "$sample")"
done

for dancer in $("$program" archive list --json --archive "$archive" |
  sed -n 's/.*"dancer": "\(.*\)".*/\1/p' | sort -u); do
  "$program" archive forget "$dancer" --yes --archive "$archive" >/dev/null 2>&1
done
"$program" archive export --archive "$archive" >"$seeds/bundle_fuzz/forgotten"
