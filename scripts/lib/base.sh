# shellcheck shell=bash
# What every script here stands on: where things are, telling, and waiting without going silent.
# Written for bash 3.2 too, as macOS ships no newer one.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root" || exit
tools=$root/.tools
logs=$tools/logs
mkdir -p "$logs"
export PATH="$tools/bin:$PATH"

# These change what cargo builds, or where; the page needs its own flags and paths.
unset RUSTFLAGS CARGO_ENCODED_RUSTFLAGS CARGO_BUILD_RUSTFLAGS CARGO_BUILD_TARGET CARGO_TARGET_DIR
export CARGO_TERM_COLOR=never
# Trunk 0.21 stops at NO_COLOR=1, which many shells set: it wants a truth value.
export NO_COLOR=true

# shellcheck disable=SC2034 # the other pieces use it
wasm=wasm32-unknown-unknown
running=

say() { printf '%s\n' "$*"; }

# stop STEP REMEDY: ends the script with the reason.
stop() {
  printf '\nstep %s failed: %s\n' "$1" "$2" >&2
  exit 1
}

# without_progress LOG: what a failed command said, less the names of the crates that went well.
without_progress() {
  grep -vE '^ *(Blocking|Checking|Compiling|Downloaded|Downloading|Fresh|Locking|Updating) ' "$1" || true
}

# begin LOG COMMAND...: starts COMMAND in a process group of its own, so that ending it ends its
# children too; its id is in $begun.
begin() {
  local log=$1
  shift
  set -m
  "$@" >"$log" 2>&1 </dev/null &
  begun=$!
  set +m
  running="$running $begun"
}

end_running() {
  local group
  for group in $running; do
    kill -- "-$group" 2>/dev/null || true
  done
}
trap end_running EXIT
trap 'exit 130' INT
trap 'exit 143' TERM

# attend WHAT USUAL ID...: waits for what begin started, and says every 20 seconds how long it has
# taken and how long it usually takes. Fails if one of them failed.
attend() {
  local what=$1 usual=$2 since=$SECONDS told=0 waited id failed=0
  shift 2
  for id in "$@"; do
    while kill -0 "$id" 2>/dev/null; do
      sleep 0.2
      waited=$((SECONDS - since))
      if ((waited - told >= 20)); then
        told=$waited
        say "  ... $what: ${waited} s so far, usually $usual"
      fi
    done
    wait "$id" || failed=1
    running=${running/ $id/}
  done
  return "$failed"
}
