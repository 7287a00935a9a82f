# shellcheck shell=bash disable=SC2154 # root, tools, logs, wasm and begun are base.sh's
# Building the page.

# What attend can run: the libraries first, as trunk's --offline holds for cargo too.
trunk_build() {
  cargo fetch --locked --target "$wasm" && trunk build --release --offline --locked
}
