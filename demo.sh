#!/usr/bin/env bash
# Sets up if needed, builds the book of the invented practice from demo-images, and writes its review and reports; then the reports of single inspections.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
out=${1:-"$root/out/demo"}
# The demonstration's own today: its history ends in November 2025.
day=2025-12-01
"$root/setup.sh"
mkdir -p "$out"
rm -rf "$out/book"
"$root/edgelens" book demo "$root/demo-images" "$out/book"
export EDGELENS_BOOK="$out/book"
"$root/edgelens" book review --day "$day" --out "$out/review.html" "$out/review.pdf"
for instrument in C-07 C-08 L-02; do
  "$root/edgelens" book report instrument "$instrument" --day "$day" --uncertainty --out "$out/$instrument.html" "$out/$instrument.pdf"
done
"$root/edgelens" book report cassette A --day "$day" --out "$out/cassette-A.html" "$out/cassette-A.pdf"
"$root/edgelens" book report work-list --day "$day" --out "$out/work-list.html" "$out/work-list.pdf"
printf 'demo: single inspections, each with its photograph and all that was measured in it:\n'
code=0
"$root/edgelens" inspect "$root/demo-images" --out "$out/inspections" || code=$?
# 2: a photograph was refused, and the report says why; there is something to open all the same.
[ "$code" -eq 0 ] || [ "$code" -eq 2 ] || exit "$code"
printf 'demo: a photograph that cannot be measured is refused, with the reason and what to do:\n'
"$root/edgelens" measure "$root/demo-images/refuse/overexposed.jpg" --family universal-curette || [ $? -eq 2 ]
printf 'demo: the practice review is %s (and .pdf); single inspections: %s - open them in a browser.\n' "$out/review.html" "$out/inspections/index.html"
