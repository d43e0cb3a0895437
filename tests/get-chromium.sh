#!/usr/bin/env bash
# Sees to a Chromium for the browser tests: installs Debian's where it is missing and this is Debian and root. Elsewhere, or where that fails, those tests are skipped and say so.
set -uo pipefail
say() { printf 'chromium: %s\n' "$*"; }
for program in /usr/bin/chromium /usr/bin/chromium-browser /usr/bin/google-chrome; do
  [ -x "$program" ] && exit 0
done
# Ubuntu's package of the name only points to another kind of package, which does not run everywhere.
if [ "$(id -u)" -ne 0 ] || ! grep -qx 'ID=debian' /etc/os-release 2>/dev/null; then
  say 'none is installed; the browser tests will be skipped.'
  exit 0
fi
say 'installing it (apt-get install chromium, about 300 MB).'
{ apt-get update -q && env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends chromium; } || say 'it could not be installed; the browser tests will be skipped.'
