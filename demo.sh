#!/usr/bin/env bash
# Sets up if needed and runs the main job on the demo photographs: every working end against its as-new baseline, one report each.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
out=${1:-"$root/out/demo"}
"$root/setup.sh"
code=0
"$root/edgelens" inspect "$root/demo-images" --out "$out" || code=$?
# 2: a photograph was refused, and the report says why; there is something to open all the same.
[ "$code" -eq 0 ] || [ "$code" -eq 2 ] || exit "$code"
printf 'demo: a photograph that cannot be measured is refused, with the reason and what to do:\n'
"$root/edgelens" measure "$root/demo-images/refuse/overexposed.jpg" --family universal-curette || [ $? -eq 2 ]
printf 'demo: the reports are in %s - open index.html in a browser.\n' "$out"
