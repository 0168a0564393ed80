#!/bin/sh
# Installs what is missing, builds into build/ and runs all tests: sh tests/run.sh
set -eu
cd "$(dirname "$0")/.."
. .ci/setup.sh

install_packages
build_in build
ctest --test-dir build --output-on-failure --parallel "$(jobs_at_once)"
