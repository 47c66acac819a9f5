#!/bin/sh
# From nothing to the first sheet, on Debian 12 with git and a shell, as root or with sudo:
#
#   sh samples/run.sh
#
# Installs what is missing, builds, solves samples/plain.yaml and says where its PDF is. A second run
# only does what has changed.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/.cmake/setup.sh"

# shellcheck disable=SC2086 # a list
packages $packages_build

# The tests build in the same place; once they are configured there, they stay so.
[ -f "$root/build/release/build.ninja" ] ||
  step 'Preparing the build' configure release -DSHANKLINE_TESTS=OFF
step 'Building (the first time takes a few minutes)' build release shankline

cd "$root"
mkdir -p out
program=$(find build/release -type f -name shankline -perm -u+x | head -n 1)
"$program" cut samples/plain.yaml -o out/plain.pdf
printf 'The sheets are in %s\n' "$root/out/plain.pdf"
