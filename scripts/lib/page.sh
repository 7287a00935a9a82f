# shellcheck shell=bash disable=SC2154 # root, tools, logs, wasm and begun are base.sh's
# Building the page.

# The libraries first, as trunk's --offline holds for cargo too. A backtrace of trunk tells nothing.
# At its end trunk runs scripts/lib/split, which takes the program apart.
trunk_build() {
  cargo fetch --locked --target "$wasm" &&
    RUST_BACKTRACE=0 trunk build --release --offline --locked
}
