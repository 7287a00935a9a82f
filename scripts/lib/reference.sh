# shellcheck shell=bash disable=SC2154 # root, tools, logs and begun are base.sh's
# Python with the libraries that figures are compared with, in an environment of its own in .tools, which git ignores.
reference_python=$tools/reference/bin/python3

set_up_reference() {
  local needed=$root/tests/reference/requirements.txt
  if cmp -s "$needed" "$tools/reference/installed.txt"; then
    return 0
  fi
  command -v python3 >/dev/null || stop "reference" "python3 is not on PATH"
  say "Installing the libraries that figures are compared with (usually a minute)"
  begin "$logs/reference.log" install_reference "$needed"
  attend "the libraries" "a minute" "$begun" || stop "reference" "$(tail -n 20 "$logs/reference.log")"
  cp "$needed" "$tools/reference/installed.txt"
}

install_reference() {
  python3 -m venv "$tools/reference" &&
    "$reference_python" -m pip install --quiet --disable-pip-version-check -r "$1"
}
