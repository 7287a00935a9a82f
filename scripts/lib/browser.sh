# shellcheck shell=bash disable=SC2154 # root, tools, logs, wasm and begun are base.sh's
# A browser for the tests, and its driver: from CHROME and CHROMEDRIVER, from PATH, or as root on a
# Debian-like system from the system's packages.

# The first of the names that is on PATH; prints nothing if none is.
first_on_path() {
  local name
  for name in "$@"; do
    if command -v "$name"; then
      return 0
    fi
  done
}

named_chrome=${CHROME:-}
named_driver=${CHROMEDRIVER:-}

find_browser() {
  CHROME=${named_chrome:-$(first_on_path chromium chromium-browser google-chrome google-chrome-stable)}
  CHROMEDRIVER=${named_driver:-$(first_on_path chromedriver)}
  export CHROME CHROMEDRIVER
  [ -x "$CHROME" ] && [ -x "$CHROMEDRIVER" ]
}

install_browser() {
  export DEBIAN_FRONTEND=noninteractive
  apt-get update && apt-get install -y --no-install-recommends chromium chromium-driver fonts-liberation
}

set_up_browser() {
  local command="apt-get update && apt-get install -y chromium chromium-driver"
  if find_browser; then
    return 0
  fi
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    say "Installing Chromium and its driver (usually 1 to 2 minutes)"
    begin "$logs/browser.log" install_browser
    attend "Chromium" "1 to 2 minutes" "$begun" || tail -n 20 "$logs/browser.log" >&2
    hash -r
    if find_browser; then
      return 0
    fi
  elif command -v apt-get >/dev/null; then
    command="sudo sh -c '$command'"
  elif command -v brew >/dev/null; then
    command="brew install --cask chromium chromedriver"
  else
    command="CHROME=/path/to/chrome CHROMEDRIVER=/path/to/chromedriver scripts/check"
  fi
  say "The browser tests need Chromium or Chrome (CHROME is '$CHROME') and its driver (CHROMEDRIVER is '$CHROMEDRIVER')."
  say "Say this, or leave the browser out with scripts/check --quick:"
  say "  $command"
  return 1
}
