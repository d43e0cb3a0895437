#!/usr/bin/env bash
# Sets up if needed, checks the white space and runs all tests, beside a PostgreSQL server of their own. Arguments go to `dotnet test`.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
export DOTNET_NOLOGO=1 DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_CLI_UI_LANGUAGE=en
./setup.sh
dotnet format whitespace --folder . --verify-no-changes
tests/get-chromium.sh
tests/with-postgres.sh dotnet test EdgeLens.sln -c Release --no-build "$@"
