#!/usr/bin/env bash
# Builds once, runs every test project under tests/, and closes with "N passed, N failed, N skipped".
# The figures are summed from the result files of this run. The exit code is not zero when a test fails, the build
# fails, the formatting is off, a test project leaves no results, or there was no test at all.
#
#   ./test.sh                  everything
#   ./test.sh Model Physics    only test projects whose name contains one of these words; no check of the formatting
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"

configuration=Release
results=$PWD/TestResults/run
failures=()
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 TESTINGPLATFORM_TELEMETRY_OPTOUT=1

# What a test project needs from the machine beyond NuGet, which the build restores by itself: Node 20, and the programs of
# other people that some tests ask the same question, each locked beside its card.
install_needs() {
  if ! command -v dotnet >/dev/null; then
    echo "The .NET 10 SDK is missing." >&2
    return 1
  fi
  # Without them the tests that ask them are skipped, and counted so.
  if ! command -v node >/dev/null || ! command -v npm >/dev/null; then
    echo "Node 20 with npm is missing: its referees are not asked." >&2
    return 0
  fi
  local lock folder
  for lock in tests/References/*/package-lock.json tests/Sallyport.Stage.Tests/package-lock.json; do
    folder=$(dirname "$lock")
    # npm writes its own copy of the lock file last: one as new as ours means that nothing is left to do.
    if [ ! "$folder/node_modules/.package-lock.json" -nt "$lock" ]; then
      (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund --loglevel=error) || echo "$folder could not be installed: it is not asked." >&2
    fi
  done
  # The walk-through is looked at in Chromium: the system's own where there is one, or one that the tests fetch for themselves.
  if ! command -v "${SALLYPORT_CHROMIUM:-chromium}" chromium-browser google-chrome >/dev/null && command -v apt-get >/dev/null && [ "$(id -u)" -eq 0 ]; then
    { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium; } >/dev/null ||
      echo "Chromium could not be installed: the tests of the walk-through fetch their own." >&2
  fi
}

# Whether a project was asked for: all are when no word was given.
wanted() {
  local project=$1 word
  shift
  [ $# -eq 0 ] && return 0
  for word in "$@"; do [[ $project == *"$word"* ]] && return 0; done
  return 1
}

# One figure of a result file's counters; empty when the file has none.
counter() { grep -o '<Counters [^>]*>' "$2" | sed -n "s/.*[[:space:]]$1=\"\([0-9]*\)\".*/\1/p" | head -n 1; }

# The tests that a result file calls failed, each with the first line of why. Every element of such a file may stand on one line.
failed_tests() {
  sed 's/<UnitTestResult /\n&/g' "$1" | awk '
    /<UnitTestResult / { name = ""; if (/outcome="Failed"/ && match($0, /testName="[^"]*"/)) name = substr($0, RSTART + 10, RLENGTH - 11) }
    name != "" && sub(/.*<Message>/, "") { sub(/<\/Message>.*/, ""); print "  " name ": " substr($0, 1, 400); name = "" }'
}

passed=0 failed=0 skipped=0

run_project() {
  local name=$1
  local program=tests/$name/bin/$configuration/net10.0/$name.dll file=$results/$name.trx code all ran good
  echo "== $name"
  dotnet "$program" --results-directory "$results" --report-xunit-trx --report-xunit-trx-filename "$name.trx" --progress off --no-ansi
  code=$?
  all='' ran='' good=''
  if [ -f "$file" ]; then
    all=$(counter total "$file") ran=$(counter executed "$file") good=$(counter passed "$file")
  fi
  if [ -z "$all" ] || [ -z "$ran" ] || [ -z "$good" ]; then
    failures+=("$name left no result file that can be read (exit code $code)")
    return
  fi
  passed=$((passed + good)) failed=$((failed + ran - good)) skipped=$((skipped + all - ran))
  if [ "$ran" -eq 0 ]; then
    failures+=("$name ran no test")
  elif [ "$good" -ne "$ran" ]; then
    failures+=("$name has $((ran - good)) failed"$'\n'"$(failed_tests "$file")")
  elif [ "$code" -ne 0 ]; then
    failures+=("$name ended with exit code $code although no test failed")
  fi
}

close() {
  local failure
  [ $((passed + failed)) -gt 0 ] || failures+=("no test was run")
  for failure in "${failures[@]}"; do echo "FAILED: $failure"; done
  echo "$passed passed, $failed failed, $skipped skipped"
  [ ${#failures[@]} -eq 0 ]
  exit
}

rm -rf "$results"
mkdir -p "$results"

install_needs || { failures+=("something that the tests need is missing"); close; }

echo "== build"
dotnet build Sallyport.slnx --configuration "$configuration" --verbosity quiet || { failures+=("the build"); close; }

if [ $# -eq 0 ]; then
  echo "== format"
  if dotnet format Sallyport.slnx --no-restore --verify-no-changes; then echo "clean"; else failures+=("dotnet format would change files"); fi
fi

for project in tests/*/*.csproj; do
  name=$(basename "$project" .csproj)
  if wanted "$name" "$@"; then run_project "$name"; fi
done
close
