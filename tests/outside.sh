#!/bin/sh
# Counts the rows of tests/data/*.tsv by where they come from: sh tests/outside.sh [DRAWS]
# Fails when a row names no source, carries a mark that DEVELOPERS.md does not explain, or stands in a file that no test
# reads. A table with none of the columns value, tolerance, source and mark holds nothing from outside, such as the
# texts of our own messages, and is left out.
set -eu
cd "$(dirname "$0")"

draws=${1:-1000000}
at_least=60 # rows from outside the project
total=0
faults=0
printf '%6s %10s %9s %8s %12s %16s  %s\n' rows published standard derived 'from memory' 'common practice' file
for file in data/*.tsv; do
  if ! grep -rqF --include='*.cpp' --include='*.h' "$(basename "$file")" .; then
    echo "$file: no test reads it"
    faults=$((faults + 1))
  fi
  # Columns by name; the first line that is no comment names them.
  line=$(awk -F '\t' -v file="$file" '
    /^#/ || /^$/ { next }
    !named {
      for (i = 1; i <= NF; i++) at[$i] = i
      named = 1
      ours = !("value" in at || "tolerance" in at || "source" in at || "mark" in at)
      if (ours) exit
      if (!("source" in at) || !("mark" in at)) { print file ": no column source or mark" >"/dev/stderr"; bad++; exit }
      next
    }
    {
      rows++
      mark = $at["mark"]
      sub(/, no source$/, "", mark)
      if (mark !~ /^(published|standard|derived|from memory|common practice)$/) {
        print file ":" NR ": unknown mark: " mark >"/dev/stderr"
        bad++
      }
      if (length($at["source"]) < 2 && mark != "common practice") {
        print file ":" NR ": no source" >"/dev/stderr"
        bad++
      }
      marks[mark]++
    }
    END {
      printf "%d %d %d %d %d %d %d", bad, rows, marks["published"], marks["standard"], marks["derived"],
             marks["from memory"], marks["common practice"]
    }' "$file")
  # shellcheck disable=SC2086 # seven numbers
  set -- $line
  faults=$((faults + $1))
  total=$((total + $3 + $4))
  printf '%6d %10d %9d %8d %12d %16d  %s\n' "$2" "$3" "$4" "$5" "$6" "$7" "$file"
done

# anew GOOD MISSING SCRIPT...: another tool does what rows here say; its script ends with 77 where it is missing.
anew() {
  good=$1
  missing=$2
  shift 2
  [ -x /usr/bin/python3 ] || return 0
  code=0
  /usr/bin/python3 -B "$@" || code=$?
  case $code in
    0) echo "$good" ;;
    77) echo "$missing" ;;
    *) faults=$((faults + 1)) ;;
  esac
}
# Debian: python3-numpy, calculix-ccx, python3-ezdxf, glpk-utils. Rows of boxes are drawn as often as the first argument says.
anew "numpy draws what data/row_numpy.tsv says." "No numpy: data/row_numpy.tsv is not drawn anew." \
  opening/row_by_numpy.py data "$draws"
anew "CalculiX moves walls as data/formulas_wall.tsv says." \
  "No CalculiX: data/formulas_wall.tsv is not solved anew." formulas/wall_by_calculix.py data
if [ "$draws" -ge 1000000 ]; then # tacks 40 s, boxes a quarter of an hour; .ci/run solves these at 25 mm
  anew "CalculiX holds tacks as data/formulas_tack.tsv says." \
    "No CalculiX: data/formulas_tack.tsv is not solved anew." formulas/tack_by_calculix.py data
  anew "CalculiX moves the stated boxes as data/elastic_calculix.tsv says." \
    "No CalculiX: data/elastic_calculix.tsv is not solved anew." elastic/boxes_by_calculix.py data 12.5
fi
anew "GLPK finds the best orders that data/order_problems.tsv has." \
  "No GLPK: data/order_problems.tsv is not solved anew." planning/orders_by_glpk.py data
anew "ezdxf reads the flat pattern as the hand has it." \
  "No ezdxf: data/golden/locker-body.dxf is not read by another program." sheet/flat_by_ezdxf.py data
if command -v xmllint >/dev/null; then
  xmllint --noout data/golden/locker-body.svg || faults=$((faults + 1))
fi

echo "$total rows are published or standard; at least $at_least are wanted."
if [ "$total" -lt "$at_least" ]; then faults=$((faults + 1)); fi
if [ "$faults" -gt 0 ]; then
  echo "$faults faults in tests/data." >&2
  exit 1
fi
