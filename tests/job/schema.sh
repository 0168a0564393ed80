#!/bin/sh
# Holds docs/job.xsd and docs/fixture.xsd against files: sh tests/job/schema.sh FOLDER
# The samples, the odd jobs and the two files that use every word are valid, and so is a fixture in a file of its own as
# the job refers to it; spoilt ones are not. 77 tells ctest that there is no xmllint; .ci/run installs it.
set -eu
folder=$1/job-schema
cd "$(dirname "$0")/../.."
if ! command -v xmllint >/dev/null 2>&1; then
  echo "xmllint is not installed (package libxml2-utils)"
  exit 77
fi
mkdir -p "$folder"

valid() { xmllint --noout --schema "docs/$1" "$2" 2>"$folder/said"; }

files=0
wanted_valid() {
  valid "$1" "$2" || {
    cat "$folder/said"
    exit 1
  }
  files=$((files + 1))
}

job=tests/data/job-everything.xml
fixture=tests/data/fixture-everything.xml
for file in samples/*.xml tests/data/jobs/*.xml "$job"; do
  wanted_valid job.xsd "$file"
done
wanted_valid fixture.xsd "$fixture"
sed '/<fixture box="tray"/,/<\/fixture>/c\  <fixture box="tray" file="../tray-fixture.xml"/>' "$job" >"$folder/refers"
grep -q '<fixture box="tray" file=' "$folder/refers"
wanted_valid job.xsd "$folder/refers"

# spoilt SCHEMA FILE WHAT SED-EXPRESSION
refused=0
spoilt() {
  sed "$4" "$2" >"$folder/spoilt"
  if cmp -s "$2" "$folder/spoilt"; then
    echo "$3: nothing was spoilt"
    exit 1
  fi
  if valid "$1" "$folder/spoilt"; then
    echo "$3: valid all the same"
    exit 1
  fi
  refused=$((refused + 1))
}
spoilt job.xsd "$job" "a fixture as the root" 's/tacksquare-job/tacksquare-fixture/'
spoilt job.xsd "$job" "a table without depth" 's/ depth="40 in"//'
spoilt job.xsd "$job" "a length without a unit" 's/nozzle="18 mm"/nozzle="18"/'
spoilt job.xsd "$job" "an unknown item" 's/item="square"/item="vice"/'
spoilt job.xsd "$job" "a negative count" 's/count="0"/count="-1"/'
spoilt job.xsd "$job" "an unknown attribute of the shop" 's/<shop>/<shop name="S">/'
spoilt job.xsd "$job" "an unknown piece" 's/<hold-down /<magnet /'
spoilt job.xsd "$job" "a fixture in a fixture" 's/<support id="Z1"/<fixture box="tray"\/><support id="Z1"/'
spoilt fixture.xsd "$fixture" "a job as the root" 's/tacksquare-fixture/tacksquare-job/'
spoilt fixture.xsd "$fixture" "a box" 's/ down=/ box="tray" down=/'
spoilt fixture.xsd "$fixture" "another file" 's/ down=/ file="other.xml" down=/'
spoilt fixture.xsd "$fixture" "nothing down" 's/ down="rim"//'
spoilt fixture.xsd "$fixture" "no long side" 's/ long-side="F"//'
spoilt fixture.xsd "$fixture" "a stop towards nothing" 's/ towards="-x"//'
spoilt fixture.xsd "$fixture" "a stop upward" 's/towards="-x"/towards="z"/'
spoilt fixture.xsd "$fixture" "a piece without an id" 's/<former id="F1"/<former/'
spoilt fixture.xsd "$fixture" "a bar with one end" 's/ to="400 mm[^"]*"//'
spoilt fixture.xsd "$fixture" "a square without a corner" 's/<square id="Q1" corner="F L"/<square id="Q1"/'
spoilt fixture.xsd "$fixture" "a unit that is missing" 's/force="500 N"/force="500"/'
echo "$files files are valid, $refused spoilt ones are not"
