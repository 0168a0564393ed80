#!/bin/sh
# README.md shows what the program really says: runs the commands of its ```console blocks with the given program and
# looks for each line that is shown below them, in that order; lines may be left out. sh tests/readme.sh PROGRAM
set -eu
program=$(realpath "${1:?usage: sh tests/readme.sh PROGRAM}")
readme=$(cd "$(dirname "$0")/.." && pwd)/README.md
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin"
ln -s "$program" "$work/bin/tacksquare"
PATH=$work/bin:$PATH
cd "$work"
: >said
commands=0
faults=0
awk '/^```console$/ { shown = 1; next } /^```$/ { shown = 0 } shown' "$readme" >shown
while IFS= read -r line; do
  case $line in
    '$ '*)
      commands=$((commands + 1))
      sh -c "${line#??}" </dev/null >said 2>&1 || true
      ;;
    *)
      at=$(grep -nxF -m 1 -e "$line" said | cut -d : -f 1)
      if [ -n "$at" ]; then
        tail -n +$((at + 1)) said >rest
        mv rest said
      else
        echo "README.md shows, and the program does not say (in this order): $line" >&2
        faults=$((faults + 1))
      fi
      ;;
  esac
done <shown
echo "$commands commands of README.md, $faults lines that differ"
[ "$commands" -ge 5 ] && [ "$faults" -eq 0 ]
