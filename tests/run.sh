#!/bin/sh
# Every test, on Debian 12 with git and a shell, as root or with sudo:
#
#   sh tests/run.sh                 what runs every day: a few minutes
#   sh tests/run.sh long            everything there is: some hours
#   sh tests/run.sh long PART...    these parts of it
#   sh tests/run.sh long --list     the parts, and when each was run last, on which commit, how it went
#
# Ends with the closing lines of ctest, or of the parts; the exit code is 0 only when every step passed.
set -u
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/.cmake/setup.sh"
cd "$root" || exit 1

failed=
ours='geometry export cli tests'

# check WORDS COMMAND...: a step whose failure is remembered, the others run all the same.
check() {
  step "$@" || failed="$failed
  $1"
}

# tests PURPOSE [CTEST ARGUMENTS...]: one more at a time than processors, since some wait for servers.
tests() {
  purpose=$1
  shift
  ctest --test-dir "build/$purpose" --parallel "$((jobs + 1))" --output-on-failure --no-tests=error \
    --no-label-summary "$@"
}

# The library that makes calls fail must stand in front, where a sanitizer must stand too, and it
# makes the files of the coverage's counters fail too.
without_faults='-E Faults(\.|$)'

everything_sanitized() {
  # shellcheck disable=SC2086 # two words
  configure asan && build asan && tests asan -LE '^long$' $without_faults
}

other_compiler() {
  configure clang && build clang && tests clang -LE '^long$'
}

our_files() {
  # shellcheck disable=SC2086 # a list
  find $ours -name '*.cpp' -o -name '*.hpp' | LC_ALL=C sort
}

format() {
  our_files | xargs clang-format-14 --dry-run -Werror
}

# Each header with nothing in front of it.
headers() {
  our_files | grep '\.hpp$' |
    xargs -n 1 -P "$jobs" g++ -std=c++20 -I. -fsyntax-only -x c++ /dev/null -include
}

# Each room as one file, from the list of the build's commands.
tidy() {
  configure tidy &&
    sed -n 's/^ *"file": "\(.*\)".*/\1/p' build/tidy/compile_commands.json |
    xargs -n 1 -P "$jobs" clang-tidy-14 --quiet --config-file=.cmake/tidy.yaml -p build/tidy
}

second_opinion() {
  cppcheck --std=c++20 --language=c++ --enable=warning,performance,portability --inline-suppr \
    --suppress=missingIncludeSystem --suppress=cppcheckError --error-exitcode=1 --quiet \
    -j "$jobs" -I . geometry export cli
}

# covered PERCENT FILTERS...: that much of their lines at least.
covered() {
  least=$1
  shift
  gcovr --root . --object-directory build/coverage --exclude-throw-branches "$@" \
    --fail-under-line "$least"
}

coverage() {
  configure coverage && build coverage || return 1
  find build/coverage -name '*.gcda' -delete
  # shellcheck disable=SC2086 # two words
  tests coverage -LE '^long$' $without_faults && covered 95 --filter geometry/ &&
    covered 90 --filter geometry/ --filter export/ --filter cli/
}

# fuzz_one TARGET: what once failed first, then ten minutes of new ideas.
fuzz_one() {
  mkdir -p "build/fuzz/corpus/$1" "build/fuzz/found/$1"
  "build/fuzz/tests/$1" -runs=0 -timeout=5 "tests/fuzz/kept/$1" &&
    "build/fuzz/tests/$1" -max_total_time="${SHANKLINE_FUZZ_SECONDS:-600}" -timeout=5 \
      -rss_limit_mb=2048 -max_len=70000 -artifact_prefix="build/fuzz/found/$1/" \
      "build/fuzz/corpus/$1" "build/fuzz/seeds/$1" "tests/fuzz/kept/$1"
}

# Runs as many fuzzers at a time as there are jobs; passing archives need no disk.
fuzz() ( # a shell of its own, for its TMPDIR
  configure fuzz && build fuzz fuzzers || exit 1
  sh tests/fuzz/seeds.sh build/release/cli/shankline build/fuzz/seeds || exit 1
  if [ -w /dev/shm ]; then export TMPDIR=/dev/shm; fi
  rm -f build/fuzz/failed
  running=
  for target in $(cd tests/fuzz/kept && ls -d -- *); do
    { fuzz_one "$target" >"build/fuzz/$target.log" 2>&1 || echo "$target" >>build/fuzz/failed; } &
    running="$running $!"
    # shellcheck disable=SC2086 # a list
    set -- $running
    if [ $# -ge "$jobs" ]; then
      wait "$1"
      shift
      running="$*"
    fi
  done
  wait
  tail -n 12 build/fuzz/*_fuzz.log
  [ ! -e build/fuzz/failed ]
)

# All of them, even where one misses its bar. A batch compares processors: its sheets are kept from
# the disk where that can be.
benchmarks() {
  configure bench || return 1
  missed=0
  for benchmark in bench bench_of_contact bench_of_archive; do
    build bench "$benchmark" || missed=1
  done
  (
    [ ! -w /dev/shm ] || export TMPDIR=/dev/shm
    build bench bench_of_batch
  ) || missed=1
  return $missed
}

# The Debian package in a system where nothing of ours was ever built: comes, works, goes.
# shellcheck disable=SC2016 # for the shell inside
package_in_clean_root='
  all_files() { find / -xdev "(" -path /proc -o -path /var -o -path /root ")" -prune -o -print | sort; }
  apt-get -q update
  all_files >/root/before
  DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends /root/shankline.deb
  shankline --version
  cd /root
  shankline cut /usr/share/doc/shankline/samples/plain.yaml -o plain.pdf
  head -c 4 plain.pdf | grep -q %PDF
  test -s /usr/share/man/man1/shankline.1.gz
  test -s /usr/share/bash-completion/completions/shankline
  DEBIAN_FRONTEND=noninteractive apt-get autoremove -q -y --purge shankline
  all_files >/root/after
  diff /root/before /root/after'

# can_make_systems: says why not, where other systems cannot be made here.
can_make_systems() {
  if [ "$(id -u)" -ne 0 ]; then
    echo 'Left out: only root can install into a system of its own.'
    return 1
  fi
  command -v debootstrap >/dev/null && return 0
  echo 'Left out: debootstrap is not installed.'
  return 1
}

# system_with_clone RELEASE FOLDER: makes a bare system of that Debian with git and a clone of this tree.
# The caller unmounts its /proc.
system_with_clone() {
  # Only its maker may enter a folder of mktemp: in there, that folder is /, and users without rights
  # could run nothing.
  chmod 755 "$2" &&
    debootstrap --variant=minbase --include=git,ca-certificates "$1" "$2" &&
    cp /etc/resolv.conf "$2/etc/resolv.conf" &&
    git -c safe.directory='*' clone --quiet "file://$root" "$2/root/shankline" &&
    mount -t proc proc "$2/proc"
}

# samples/run.sh in a system that has git and nothing else, and the package made there.
clean_root() ( # a shell of its own, for what is to be undone at its end
  system=$(mktemp -d) || exit 1
  bare=$(mktemp -d) || exit 1
  # shellcheck disable=SC2064 # the names of now
  trap "umount '$system/proc' 2>/dev/null; rm -rf --one-file-system '$system' '$bare'" EXIT
  system_with_clone bookworm "$system" || exit 1
  chroot "$system" sh -c 'sh /root/shankline/samples/run.sh && sh /root/shankline/samples/run.sh' ||
    exit 1
  head -c 4 "$system/root/shankline/out/plain.pdf" | grep -q %PDF || exit 1

  chroot "$system" sh -ec 'DEBIAN_FRONTEND=noninteractive apt-get install -q -y dpkg-dev file
    cd /root/shankline
    cmake -G Ninja -C .cmake/dynamic.cmake -B build/dynamic
    cmake --build build/dynamic && cd build/dynamic && cpack' || exit 1
  if command -v lintian >/dev/null; then
    lintian --no-tag-display-limit --fail-on error "$system"/root/shankline/build/dynamic/shankline_*.deb ||
      exit 1
  fi
  debootstrap --variant=minbase bookworm "$bare" || exit 1
  cp /etc/resolv.conf "$bare/etc/resolv.conf"
  cp "$system"/root/shankline/build/dynamic/shankline_*.deb "$bare/root/shankline.deb" || exit 1
  chroot "$bare" sh -ec "$package_in_clean_root"
)

in_clean_root() {
  ! can_make_systems || clean_root
}

# in_release NAME COMMAND...: the command for a shell inside a bare system of that Debian, in a clone of
# this tree, and then five samples, which must give the same bytes there as here.
in_release() (
  can_make_systems || exit 0
  build release shankline || exit 1
  system=$(mktemp -d) || exit 1
  # shellcheck disable=SC2064 # the names of now
  trap "umount '$system/dev/pts' '$system/proc' 2>/dev/null; rm -rf --one-file-system '$system'" EXIT
  system_with_clone "$1" "$system" || exit 1
  # A mirror that follows sid slowly is past its date.
  [ "$1" != sid ] ||
    echo 'Acquire::Check-Valid-Until "false";' >"$system/etc/apt/apt.conf.d/99valid"
  mount -t devpts devpts "$system/dev/pts" || exit 1
  chroot "$system" sh -c "cd /root/shankline && $2" || exit 1
  here=$(find build/release -type f -name shankline -perm -u+x | head -n 1)
  for sample in plain whole_order long_sides cut_by_layer tied_ribbons; do
    SOURCE_DATE_EPOCH=0 "$here" cut "samples/$sample.yaml" -q -o "$system/root/$sample.pdf" || exit 1
    # shellcheck disable=SC2016 # for the shell inside
    chroot "$system" sh -ec 'cd /root/shankline
      program=$(find build/release -type f -name shankline -perm -u+x | head -n 1)
      SOURCE_DATE_EPOCH=0 "$program" cut "samples/$1.yaml" -q -o /root/other.pdf
      cmp /root/other.pdf "/root/$1.pdf"' sh "$sample" || exit 1
  done
  echo 'five samples: the same bytes as here'
)

# The next Debian: warnings are errors, and all tests of every day pass.
debian13() {
  in_release trixie 'SHANKLINE_WERROR=ON sh tests/run.sh'
}

# Debian to come: it moves, so that what fails there is told and holds nothing up.
sid() {
  in_release sid 'sh samples/run.sh' || echo 'FAILED on the sid of today: reported, not required'
}

same_bytes() {
  for purpose in clang asan; do
    configure $purpose && build $purpose shankline || return 1
  done
  sh tests/same_bytes.sh build/release build/clang build/asan
}

a_year() {
  build release shankline &&
    python3 tests/company/year.py "$(find build/release -type f -name shankline -perm -u+x | head -n 1)"
}

# The page in a browser. The accessibility rules come from npm, where npm is; without it the rest runs.
axe_version=4.14.1
in_a_browser() {
  build release shankline || return 1
  rules=
  if command -v npm >/dev/null; then
    mkdir -p build/axe &&
      (cd build/axe && npm pack --silent "axe-core@$axe_version" && tar xf "axe-core-$axe_version.tgz") ||
      return 1
    rules="--axe build/axe/package/axe.min.js"
  else
    echo 'Without npm no accessibility rules.'
  fi
  mkdir -p build/page
  # shellcheck disable=SC2086 # two words, or none
  /usr/bin/python3 tests/page/browser.py build/release/cli/shankline $rules --pictures build/page &&
    long_tests LongPageServing
}

# long_tests REGEX [CTEST ARGUMENTS...]: the long tests with such names.
long_tests() {
  tests release -L '^long$' -R "$@"
}

# With nothing beside them, and optimized as the program is.
server_ratios() {
  configure bench -DSHANKLINE_TESTS=ON && build bench archive_tests &&
    tests bench -R 'LongServer(Speed|Scale)' --parallel 1
}

# The parts of the long run, in the order in which they run: a name, and what it does.
parts='
geometry   long tests of the solver, but for a million orders
exact      long tests against exact arithmetic
pages      long tests of the sheets
program    long tests of readers, verbs and the program
million    a million orders
archive    long tests of the archive, in a file and on a server
page       the page in a browser, and its server under load
company    a year of a company through the program: 40 dancers, 400 pairs, twice
clang      everything of every day, built by the other compiler
sanitizers everything of every day, under the sanitizers
bytes      the same bytes from every build
format     the format of our files
headers    every header alone
tidy       clang-tidy
cppcheck   cppcheck
coverage   the share of lines that the tests of every day reach
fuzz       ten minutes of fuzzing for each reader
bench      the benchmarks
system     samples/run.sh and the package in a clean system
debian13   everything of every day in a clean Debian 13, and the same bytes
sid        samples/run.sh in the Debian to come: told, not required'

run_part() {
  case $1 in
    geometry) build release feet_trial && long_tests '^geometry_tests[.]' -E LongMillion ;;
    exact) long_tests '^exact_tests[.]' ;;
    pages) long_tests '^export_tests[.]' ;;
    program) long_tests '^(cli|reader|support)_tests[.]' -E LongPageServing ;;
    page) in_a_browser ;;
    million) long_tests LongMillion ;;
    archive)
      long_tests '^archive_tests[.]' -E 'LongServer(Speed|Scale)' &&
        server_ratios ;;
    company) a_year ;;
    clang) other_compiler ;;
    sanitizers) everything_sanitized ;;
    bytes) same_bytes ;;
    format) format ;;
    headers) headers ;;
    tidy) tidy ;;
    cppcheck) second_opinion ;;
    coverage) coverage ;;
    fuzz) fuzz ;;
    bench) benchmarks ;;
    system) in_clean_root ;;
    debian13) debian13 ;;
    sid) sid ;;
  esac
}

# The lines of a part's output that its reader wants to see.
figures_of() {
  case $1 in
    coverage) sed -n '/^TOTAL/p' "$2" ;;
    bench) sed -n '/ratio/p; /held$/p; /MISSED$/p' "$2" ;;
    company) cat "$2" ;;
    page) sed -n '/^ok/p; /^FAILED/p; /tests passed,/p' "$2" ;;
    system | debian13 | sid) sed -n '/^Left out/p; /tests passed,/p; /^five samples/p; /^FAILED/p' "$2" ;;
    *) sed -n '/tests passed,/p' "$2" ;;
  esac
}

tree_of_now() {
  commit=$(git -c safe.directory='*' rev-parse --short HEAD 2>/dev/null) || commit=unknown
  git -c safe.directory='*' diff --quiet HEAD 2>/dev/null || commit="$commit, changed"
  printf '%s' "$commit"
}

# long_part NAME: leaves a stamp, so that the parts of a long run can be run on different days.
long_part() {
  part=$1
  stamps=$root/build/long
  mkdir -p "$stamps"
  part_begin=$(date +%s)
  step "Part $part" run_part "$part"
  code=$?
  log=$logs/Part_$part.log
  result=passed
  if [ "$code" -ne 0 ]; then
    result=FAILED
    failed="$failed
  $part"
  fi
  ! grep -q '^Left out' "$log" || result='left out'
  printf '%s  %s  %s s  %s\n' "$(date '+%Y-%m-%d %H:%M')" "$(tree_of_now)" \
    "$(($(date +%s) - part_begin))" "$result" >"$stamps/$part"
  figures_of "$part" "$log"
}

list_parts() {
  printf '%s\n' "$parts" | while read -r part what; do
    [ -n "$part" ] || continue
    stamp='never run here'
    [ ! -e "$root/build/long/$part" ] || stamp=$(cat "$root/build/long/$part")
    printf '%-10s  %-66s  %s\n' "$part" "$what" "$stamp"
  done
}

all_parts=$(printf '%s\n' "$parts" | awk 'NF { print $1 }')

usage() {
  echo 'usage: tests/run.sh [long [PART...]]' >&2
  [ $# -eq 0 ] || printf '%s\n' "$@" >&2
  exit 2
}

run=${1:-everyday}
case $run in
  everyday)
    needed="$packages_build $packages_tests"
    exact=OFF ;;
  long)
    shift
    if [ "${1:-}" = --list ]; then
      list_parts
      exit 0
    fi
    for part in "$@"; do
      printf '%s\n' "$all_parts" | grep -qx -e "$part" ||
        usage "no part is called $part; the parts are:" "$all_parts"
    done
    needed="$packages_build $packages_tests $packages_long"
    exact=ON ;;
  *) usage ;;
esac

# shellcheck disable=SC2086 # a list
packages $needed || exit 1
step 'Preparing the build' configure release -DSHANKLINE_TESTS=ON -DSHANKLINE_EXACT_TESTS=$exact || exit 1
step 'Building' build release || exit 1

if [ "$run" = long ] && [ $# -gt 0 ]; then
  for part in "$@"; do
    long_part "$part"
  done
  [ -z "$failed" ] || printf '\nFailed:%s\n' "$failed"
  [ -z "$failed" ]
  exit
fi
if [ "$run" = long ]; then
  for part in $all_parts; do
    long_part "$part"
  done
fi

# Last, so that its closing lines are the last there is to read. The check of the layers is among
# these tests.
step_tail=400
check 'Tests' tests release -LE '^long$'
if [ -n "$failed" ]; then
  printf '\nFailed:%s\n' "$failed"
fi
printf '\n'
sed -n '/tests passed,/,$p' "$logs/Tests.log"
[ -z "$failed" ]
