#!/usr/bin/env bash
# Runs a command beside a PostgreSQL server of its own: in a temporary folder, reached through a socket there, gone afterwards.
# The command finds it by EDGELENS_TEST_POSTGRES, a connection string. Installs the server where it is missing and apt-get knows how.
set -euo pipefail
say() { printf 'postgres: %s\n' "$*"; }
stop() { printf 'postgres: %s\n' "$@" >&2; exit 1; }
as_root() { if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi; }

# Debian keeps the server's programs out of the path, one folder for each version; the newest counts.
server_programs() {
  local found
  found=$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort -V | tail -n 1)
  if [ -n "$found" ]; then printf '%s\n' "$found"; elif command -v initdb >/dev/null 2>&1; then dirname "$(command -v initdb)"; fi
}

programs=$(server_programs)
if [ -z "$programs" ]; then
  command -v apt-get >/dev/null 2>&1 || stop 'the PostgreSQL server is missing, and I only know how to install it on Debian and Ubuntu.' 'Install it and run this again.'
  [ "$(id -u)" -eq 0 ] || command -v sudo >/dev/null 2>&1 || stop 'root rights are needed to install PostgreSQL. Ask an administrator to run:' 'apt-get install --no-install-recommends postgresql'
  say 'installing the server (apt-get install postgresql, about 60 MB).'
  as_root apt-get update -q
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends postgresql
  programs=$(server_programs)
  [ -n "$programs" ] || stop 'after the installation the server is still missing.'
fi

folder=$(mktemp -d)
# The server refuses to run as root.
if [ "$(id -u)" -eq 0 ]; then
  chown postgres "$folder"
  serve() { runuser -u postgres -- "$@"; }
  user=postgres
else
  serve() { "$@"; }
  user=$(id -un)
fi
finish() {
  serve "$programs/pg_ctl" -D "$folder/data" -m immediate stop >/dev/null 2>&1 || true
  rm -rf "$folder"
}
trap finish EXIT
cd "$folder"
serve "$programs/initdb" -D "$folder/data" -A trust -E UTF8 --no-locale -U "$user" >"$folder/initdb.log" 2>&1 || { cat "$folder/initdb.log" >&2; stop 'the data folder could not be made.'; }
serve "$programs/pg_ctl" -D "$folder/data" -w -l "$folder/data/server.log" -o "-c listen_addresses='' -c unix_socket_directories='$folder'" start >/dev/null ||
  { cat "$folder/data/server.log" >&2; stop 'the server did not start.'; }
say "$("$programs/postgres" --version) runs in a temporary folder."
cd "$OLDPWD"
export EDGELENS_TEST_POSTGRES="Host=$folder;Username=$user;Database=postgres"
"$@"
