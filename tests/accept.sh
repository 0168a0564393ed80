#!/bin/sh
# Takes what the tests write now as the golden files of tests/data/golden: sh tests/accept.sh
# Read `git diff tests/data/golden` before you commit it, and tell the reason in docs/changelog.md.
set -eu
cd "$(dirname "$0")/.."
. .ci/setup.sh

build_in build
TACKSQUARE_ACCEPT=1 ctest --test-dir build --output-on-failure --parallel "$(jobs_at_once)"
