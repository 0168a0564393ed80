#!/bin/sh
# Holds docs/plan.xsd against plans: sh tests/plan/schema.sh TACKSQUARE FOLDER [OPTION-OF-PLAN...]
# The plans of all samples and the golden one, which uses every field, are valid; spoilt ones are not.
# 77 tells ctest that there is no xmllint; .ci/run installs it.
set -eu
program=$1
folder=$2/plan-schema
shift 2
cd "$(dirname "$0")/../.."
if ! command -v xmllint >/dev/null 2>&1; then
  echo "xmllint is not installed (package libxml2-utils)"
  exit 77
fi
mkdir -p "$folder"

valid() { xmllint --noout --schema docs/plan.xsd "$1" 2>"$folder/said"; }

wanted_valid() {
  valid "$1" || {
    cat "$folder/said"
    exit 1
  }
}

plans=1
for sample in samples/*.xml; do
  plan=$folder/$(basename "$sample")
  code=0
  "$program" plan "$sample" --form xml "$@" >"$plan" || code=$?
  # 3 says that a limit is more likely missed than kept, which a sample may show.
  if [ $code -ne 0 ] && [ $code -ne 3 ]; then
    echo "$sample: exit code $code"
    exit 1
  fi
  wanted_valid "$plan"
  plans=$((plans + 1))
done
golden=tests/data/golden/hand-plan.xml
wanted_valid "$golden"

# spoilt WHAT SED-EXPRESSION
refused=0
spoilt() {
  sed "$2" "$golden" >"$folder/spoilt"
  if cmp -s "$golden" "$folder/spoilt"; then
    echo "$1: nothing was spoilt"
    exit 1
  fi
  if valid "$folder/spoilt"; then
    echo "$1: valid all the same"
    exit 1
  fi
  refused=$((refused + 1))
}
spoilt "another root" 's/tacksquare-plan/tacksquare-job/'
spoilt "another format" 's/format="1"/format="2"/'
spoilt "no signature" 's/ signature="[^"]*"//'
spoilt "a short signature" 's/ signature="[^"-]*-/ signature="/'
spoilt "a missing attribute" 's/ mass-kg="[^"]*"//'
spoilt "an unknown attribute" 's/ mass-kg=/ second-mass-kg="1" mass-kg=/'
spoilt "no number" 's/mass-kg="[^"]*"/mass-kg="soon"/'
spoilt "an unknown phase" 's/phase="final-check"/phase="later"/'
spoilt "an unknown mark" 's/mark="standard"/mark="sure"/'
spoilt "an unknown kind" 's/kind="force-n"/kind="force-lb"/'
spoilt "no flag" 's/dab="true"/dab="1"/'
spoilt "a missing element" '/<low /d'
spoilt "an unknown element" 's/<low /<lower\/><low /'
spoilt "an unknown rule" 's/by="worst-case"/by="feeling"/'
spoilt "an unknown verdict" 's/verdict="dress"/verdict="perhaps"/'
spoilt "an unknown release" 's/release="correct"/release="soon"/'
spoilt "no axis" 's/axis="z"/axis="w"/'
spoilt "an unknown reason to leave" 's/leaves="torch"/leaves="perhaps"/'
spoilt "a fixture without its frame" '/<origin x="0.5"/d'
spoilt "a negative number of draws" 's/draws="7000"/draws="-7"/'
spoilt "another order" 's/<low \(.*\)$/<high x="0" y="0" z="0"\/><low \1/'
echo "$plans plans are valid, $refused spoilt ones are not"
