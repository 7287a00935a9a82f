# shellcheck shell=bash disable=SC2154 # tools, logs and begun are base.sh's
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

# What reads workbooks in the tests: openpyxl, in a Python environment of its own in .tools, which git ignores.
openpyxl_version=3.1.5

find_workbook_reader() {
  [ "$("$tools/python/bin/python3" -c 'import openpyxl; print(openpyxl.__version__)' 2>/dev/null)" = "$openpyxl_version" ]
}

# On a Debian-like system python3 comes without what makes environments.
install_workbook_reader() {
  if ! python3 -m venv "$tools/python" && [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    export DEBIAN_FRONTEND=noninteractive
    apt-get update && apt-get install -y --no-install-recommends python3-venv
    python3 -m venv --clear "$tools/python"
  fi
  "$tools/python/bin/python3" -m pip install --quiet --disable-pip-version-check "openpyxl==$openpyxl_version"
}

set_up_workbook_reader() {
  if find_workbook_reader; then
    return 0
  fi
  if command -v python3 >/dev/null; then
    say "Installing a reader of workbooks (usually a quarter of a minute)"
    begin "$logs/workbook-reader.log" install_workbook_reader
    attend "a reader of workbooks" "a quarter of a minute" "$begun" || tail -n 20 "$logs/workbook-reader.log" >&2
    if find_workbook_reader; then
      return 0
    fi
  fi
  say "The tests of workbooks need python3 with openpyxl $openpyxl_version in .tools/python. With a connection, say this:"
  say "  python3 -m venv .tools/python && .tools/python/bin/python3 -m pip install openpyxl==$openpyxl_version"
  return 1
}
