# Sourced by samples/run.sh and tests/run.sh, with `root` set to the top of the tree: the packages,
# and one line of output for every step.
# shellcheck shell=sh disable=SC2034,SC2154 # used and set by the scripts that source this

packages_build='g++ cmake ninja-build pkg-config libboost-dev libcgal-dev libgmp-dev libmpfr-dev
  libhpdf-dev libfontconfig-dev libcli11-dev libyaml-cpp-dev nlohmann-json3-dev nettle-dev
  libsqlite3-dev libpq-dev libical-dev libmicrohttpd-dev libutf8proc-dev zlib1g-dev'
packages_tests='git tmux valgrind libgtest-dev libgeos-dev postgresql qpdf poppler-utils mupdf-tools
  python3-ezdxf librsvg2-bin fonts-dejavu-core fonts-liberation2 fonts-vlgothic
  groff-base mandoc python3-jsonschema python3-yaml python3-icalendar'
packages_long='clang-14 libclang-rt-14-dev llvm-14 clang-tidy-14 clang-format-14 cppcheck gcovr
  libbenchmark-dev debootstrap chromium chromium-driver python3-selenium inkscape python3-lxml
  python3-cssselect python3-numpy jags zsh fish dpkg-dev file lintian'

jobs=${SHANKLINE_JOBS:-$(getconf _NPROCESSORS_ONLN)}
logs=$root/build/log

# follow WORDS LOG: shows on a terminal how far a build has come, such as [12/419], until it is killed.
follow() {
  while sleep 1; do
    at=$(tail -n 1 "$2" 2>/dev/null | sed -n 's/^\(\[[0-9]*\/[0-9]*\]\).*/\1/p')
    [ -z "$at" ] || printf '\r%s ... %s ' "$1" "$at"
  done
}

# step WORDS COMMAND...: runs quietly; when the command fails, shows how its output ended.
step() {
  step_words=$1
  shift
  # A name of a file may have 255 bytes, and a list of packages has more.
  step_log=$logs/$(printf '%.100s' "$step_words" | tr -c 'A-Za-z0-9\n' '_').log
  mkdir -p "$logs"
  printf '%s ... ' "$step_words"
  step_begin=$(date +%s)
  : >"$step_log"
  follower=
  if [ -t 1 ]; then
    follow "$step_words" "$step_log" &
    follower=$!
  fi
  step_result=0
  "$@" >"$step_log" 2>&1 </dev/null || step_result=$?
  if [ -n "$follower" ]; then
    kill "$follower" 2>/dev/null || :
    wait "$follower" 2>/dev/null || :
    printf '\r%s ... ' "$step_words"
  fi
  if [ "$step_result" -eq 0 ]; then
    printf 'done (%s s)\n' $(($(date +%s) - step_begin))
    return 0
  fi
  printf 'FAILED\n'
  tail -n "${step_tail:-60}" "$step_log" >&2
  printf 'All of it: %s\n' "$step_log" >&2
  return 1
}

# Sets `missing` to those of the packages that are not installed.
find_missing() {
  missing=
  for package in "$@"; do
    state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) || state=
    [ "$state" = installed ] || missing="$missing $package"
  done
}

# without_cluster [sudo]: the tests make a cluster of their own, and the one that the package postgresql
# would make and start is not wanted. Whoever has that package already keeps what is there.
without_cluster() {
  case " $missing " in *' postgresql '*) ;; *) return 0 ;; esac
  [ ! -e /etc/postgresql-common/createcluster.conf ] || return 0
  # shellcheck disable=SC2016 # for the shell inside
  "$@" sh -c 'mkdir -p /etc/postgresql-common &&
    echo "create_main_cluster = false" >/etc/postgresql-common/createcluster.conf'
}

# say_size [sudo]: how much the missing packages fetch and fill, in apt's own words.
say_size() {
  # shellcheck disable=SC2086 # a list
  "$@" env LC_ALL=C apt-get -q --assume-no --no-install-recommends install $missing 2>/dev/null |
    grep -e '^Need to get' -e '^After this operation' || :
}

# packages NAME...: installs what is missing; touches nothing when all are there.
packages() {
  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    printf 'No apt-get here, so these packages are taken as installed: %s\n' "$*"
    return 0
  fi
  find_missing "$@"
  [ -n "$missing" ] || return 0
  as_root=
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      printf 'These packages are missing:%s\n' "$missing" >&2
      printf 'Run this as root, or install sudo, or let somebody run: apt-get install%s\n' \
        "$missing" >&2
      return 1
    fi
    as_root=sudo
    # Asked for here: later there is no input to type a password into.
    sudo -v || return 1
  fi
  without_cluster $as_root || return 1
  # Split into words on purpose: sudo or nothing, and a list of packages.
  # shellcheck disable=SC2086
  step 'Fetching the list of packages' $as_root apt-get -o Acquire::Retries=3 -q update &&
    printf 'Missing:%s\n' "$missing" && say_size $as_root &&
    step 'Installing what is missing' $as_root env DEBIAN_FRONTEND=noninteractive UCF_FORCE_CONFFOLD=1 \
      apt-get -o Acquire::Retries=3 -o Dpkg::Use-Pty=0 -q -y --no-install-recommends install $missing
}

# configure PURPOSE [CMAKE ARGUMENTS...]: build/PURPOSE after .cmake/PURPOSE.cmake.
configure() {
  purpose=$1
  shift
  cmake -G Ninja -C "$root/.cmake/$purpose.cmake" -S "$root" -B "$root/build/$purpose" \
    -DSHANKLINE_WERROR="${SHANKLINE_WERROR:-OFF}" "$@"
}

# build PURPOSE [TARGETS...]
build() {
  purpose=$1
  shift
  if [ $# -eq 0 ]; then set -- all; fi
  cmake --build "$root/build/$purpose" --parallel "$jobs" --target "$@"
}
