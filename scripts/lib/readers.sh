# shellcheck shell=bash disable=SC2154 # logs and begun are base.sh's
# What reads PDFs in the tests: qpdf, and poppler's pdftotext, pdfinfo and pdfimages. From PATH, or as root on a
# Debian-like system from the system's packages.

find_readers() {
  command -v qpdf >/dev/null && command -v pdftotext >/dev/null && command -v pdfinfo >/dev/null &&
    command -v pdfimages >/dev/null
}

install_readers() {
  export DEBIAN_FRONTEND=noninteractive
  apt-get update && apt-get install -y --no-install-recommends qpdf poppler-utils
}

set_up_readers() {
  local command="apt-get update && apt-get install -y qpdf poppler-utils"
  if find_readers; then
    return 0
  fi
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    say "Installing readers of PDF (usually half a minute)"
    begin "$logs/readers.log" install_readers
    attend "readers of PDF" "half a minute" "$begun" || tail -n 20 "$logs/readers.log" >&2
    hash -r
    if find_readers; then
      return 0
    fi
  elif command -v brew >/dev/null; then
    command="brew install qpdf poppler"
  else
    command="sudo sh -c '$command'"
  fi
  say "The tests of PDFs need qpdf, pdftotext, pdfinfo and pdfimages. Say this:"
  say "  $command"
  return 1
}
