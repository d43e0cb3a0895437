#!/usr/bin/env bash
# Makes a fresh machine ready: checks the .NET SDK, installs what OpenCV's native library needs, builds EdgeLens.
# May be run as often as you like: what is there already is left alone.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
export DOTNET_NOLOGO=1 DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_CLI_UI_LANGUAGE=en

say() { printf 'setup: %s\n' "$*"; }
stop() { printf 'setup: %s\n' "$@" >&2; exit 1; }

check_sdk() {
  command -v dotnet >/dev/null 2>&1 ||
    stop 'the .NET SDK is not installed (no "dotnet" on the path).' 'Install version 10 from https://dotnet.microsoft.com/download/dotnet/10.0 and run this again.'
  local installed
  installed=$(dotnet --list-sdks)
  grep -q '^10\.' <<<"$installed" ||
    stop "the .NET SDK 10 is needed; found: ${installed:-none}." 'Install version 10 from https://dotnet.microsoft.com/download/dotnet/10.0 and run this again.'
}

# Libraries that OpenCV's native file loads. The first alone does not bring the other two.
wanted=(libgtk-3.so.0 libatomic.so.1 libdrm.so.2)

missing_libraries() {
  local cache library
  cache=$(PATH="$PATH:/sbin:/usr/sbin" ldconfig -p) || stop 'cannot list the system libraries (ldconfig failed).'
  for library in "${wanted[@]}"; do
    grep -qF "$library " <<<"$cache" || printf '%s\n' "$library"
  done
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi
}

install_libraries() {
  local missing gtk
  missing=$(missing_libraries)
  if [ -z "$missing" ]; then
    say "the system libraries for OpenCV are there (${wanted[*]})."
    return
  fi
  say "OpenCV needs system libraries that are missing:" $missing
  command -v apt-get >/dev/null 2>&1 ||
    stop "I only know how to install them on Debian and Ubuntu. Install these with your system's package manager and run this again:" $missing
  [ "$(id -u)" -eq 0 ] || command -v sudo >/dev/null 2>&1 ||
    stop 'root rights are needed to install them, and there is no sudo. Ask an administrator to run:' \
      'apt-get update && apt-get install --no-install-recommends libgtk-3-0 libatomic1 libdrm2' '(on Ubuntu 24.04 and later the first is named libgtk-3-0t64)'
  say 'updating the list of packages (apt-get update).'
  as_root apt-get update -q
  # Ubuntu 24.04 renamed the package when its time type became 64 bits wide.
  if apt-cache show libgtk-3-0t64 >/dev/null 2>&1; then gtk=libgtk-3-0t64; else gtk=libgtk-3-0; fi
  say "installing $gtk libatomic1 libdrm2 and what they need (apt-get install, about 180 MB on a bare system)."
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "$gtk" libatomic1 libdrm2
  missing=$(missing_libraries)
  [ -z "$missing" ] || stop 'after the installation these libraries are still missing:' $missing
}

prepare_system() {
  case "$(uname -s)" in
    Linux)
      [ "$(uname -m)" = x86_64 ] ||
        stop "OpenCV's native library is packaged for x86-64 only; this machine is $(uname -m)."
      install_libraries ;;
    Darwin) say 'macOS: no system library is known to be needed; this system has not been tested by us.' ;;
    MINGW*|MSYS*|CYGWIN*) say 'Windows: no system library is known to be needed; this system has not been tested by us.' ;;
    *) say "$(uname -s): not known to us; going on without installing anything." ;;
  esac
}

build() {
  say 'restoring packages and building (Release).'
  dotnet build EdgeLens.sln -c Release -v quiet
}

# The loader's own word on whether the native file can be used, instead of an exception in the middle of the first run.
check_native() {
  [ "$(uname -s)" = Linux ] || return 0
  local file unresolved
  for file in src/EdgeLens.Cli/bin/Release/net10.0/*/libOpenCvSharpExtern.so; do
    [ -e "$file" ] || stop 'the build did not bring the OpenCV library.'
    unresolved=$(ldd "$file" | sed -n 's/^[[:space:]]*\(.*\) => not found$/\1/p')
    [ -z "$unresolved" ] || stop "OpenCV's native library cannot be loaded; the system lacks:" $unresolved
  done
}

check_sdk
prepare_system
build
check_native
say 'ready.'
