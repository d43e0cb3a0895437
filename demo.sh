#!/usr/bin/env bash
# Sets up if needed and runs the main job on the demo photographs: every working end against its as-new baseline, one report each.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
out=${1:-"$root/out/demo"}
"$root/setup.sh"
"$root/edgelens" inspect "$root/demo-images" --out "$out"
printf 'demo: the reports are in %s - open index.html in a browser.\n' "$out"
