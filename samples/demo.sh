#!/bin/sh
# Installs what is missing, builds into build/, plans a sample and says where its sheet lies: sh samples/demo.sh
set -eu
cd "$(dirname "$0")/.."
. .ci/setup.sh

install_packages
build_in build tacksquare

sample=samples/gear-locker.xml
sheets=out/gear-locker
answer=0
build/tacksquare plan "$sample" -o "$sheets" || answer=$?
case $answer in
  0) ;;
  3) say "planned, but a limit is more likely missed than kept: the sheet says which" ;;
  *) exit "$answer" ;;
esac

cat <<END

Planned $sample. The step sheet lies in
  $PWD/$sheets/sheet.html   to look at in a browser and to print
  $PWD/$sheets/sheet.txt    for a terminal
  $PWD/$sheets/plan.xml     every number, for other programs
END
