#!/bin/sh
# Writes the golden files of the sheet's writers anew: sh tests/accept-golden.sh BUILD_FOLDER
# Look at the difference that git shows before you commit it.
set -eu
build=${1:?usage: sh tests/accept-golden.sh BUILD_FOLDER}
here=$(cd "$(dirname "$0")" && pwd)
cmake --build "$build" --target test_sheet
TACKSQUARE_ACCEPT=1 "$build/tests/test_sheet" "[golden]"
git -C "$here" --no-pager diff --stat -- data/golden
