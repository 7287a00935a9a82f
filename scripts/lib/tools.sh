# shellcheck shell=bash disable=SC2154 # root, tools, logs, wasm and begun are base.sh's
# The tools that turn the crate into a page. What is there at the right version is taken as it is;
# what is missing is built into .tools, which git ignores.

# Newer ones want a newer Rust than this project does.
trunk_version=0.21.14
# Takes the program apart, as scripts/lib/split says; it reads the marks of the wasm_split_helpers in Cargo.lock.
split_version=0.2.4

need_rust() {
  local missing=
  command -v cargo >/dev/null && command -v rustc >/dev/null || missing=1
  [ -z "$missing" ] ||
    stop "Rust" "no cargo and rustc on PATH; install Rust from rustup.rs and run this again"
}

# The wasm standard library of the Rust in use.
need_wasm_target() {
  local library
  library=$(rustc --print sysroot)/lib/rustlib/$wasm/lib
  [ ! -d "$library" ] || return 0
  say "Adding Rust's wasm target (usually 5 to 20 seconds)"
  if ! command -v rustup >/dev/null; then
    stop "wasm target" "this Rust has none and there is no rustup to add it; install the package that holds $wasm for your Rust, or Rust from rustup.rs"
  fi
  rustup target add "$wasm" ||
    stop "wasm target" "rustup could not fetch it (see above); with a connection, run: rustup target add $wasm"
}

is_version() {
  [ "$("$1" --version 2>/dev/null | awk '{print $2; exit}')" = "$2" ]
}

# has NAME VERSION: is it in .tools or on PATH? A stale one of ours would hide a right one on PATH.
has() {
  local ours=$tools/bin/$1
  if [ -e "$ours" ] && ! is_version "$ours" "$2"; then
    rm -f "$ours"
    hash -r
  fi
  is_version "$1" "$2"
}

# As `has`, for the splitter, which does not say its version: cargo noted what it installed.
has_splitter() {
  [ -x "$tools/bin/wasm-split-cli" ] &&
    grep -q "^\"wasm_split_cli_support $split_version " "$tools/.crates.toml" 2>/dev/null
}

# build_tool CRATE VERSION FLAG...: builds fast rather than fast code, as the tools run for seconds.
# A target folder of its own lets two be built at once, and an interrupted build go on.
build_tool() {
  local crate=$1 version=$2
  shift 2
  export CARGO_TARGET_DIR=$tools/build/$crate
  export CARGO_PROFILE_RELEASE_OPT_LEVEL=0 CARGO_PROFILE_RELEASE_LTO=off
  export CARGO_PROFILE_RELEASE_CODEGEN_UNITS=64 CARGO_PROFILE_RELEASE_DEBUG=0
  export CARGO_PROFILE_RELEASE_STRIP=symbols
  export CARGO_RESOLVER_INCOMPATIBLE_RUST_VERSIONS=fallback
  # Trunk waits longest for single crates; the others fill the gaps that it leaves.
  [ "$crate" = trunk ] || renice -n 10 "$BASHPID" >/dev/null 2>&1 || true
  cargo install "$crate" --version "$version" --root "$tools" "$@" && rm -rf "$CARGO_TARGET_DIR"
}

# Trunk, the splitter, and the wasm-bindgen that matches the library in Cargo.lock: it refuses any other.
set_up_tools() {
  local bindgen_version names='' ids='' since=$SECONDS
  need_rust
  need_wasm_target
  bindgen_version=$(awk '/^name = "wasm-bindgen"$/ {getline; gsub(/"/, ""); print $3; exit}' Cargo.lock)
  if ! has trunk "$trunk_version"; then
    # Without features: it downloads nothing for us, so it needs no TLS.
    begin "$logs/trunk.log" build_tool trunk "$trunk_version" --locked --no-default-features
    names="trunk $trunk_version" ids=$begun
  fi
  if ! has wasm-bindgen "$bindgen_version"; then
    # Not --locked: its lock file can name releases that were withdrawn.
    begin "$logs/wasm-bindgen.log" build_tool wasm-bindgen-cli "$bindgen_version" --bin wasm-bindgen
    names="${names:+$names and }wasm-bindgen $bindgen_version" ids="$ids $begun"
  fi
  if ! has_splitter; then
    begin "$logs/wasm-split-cli.log" build_tool wasm_split_cli_support "$split_version" --locked --features build-binary
    names="${names:+$names and }wasm-split-cli $split_version" ids="$ids $begun"
  fi
  [ -n "$names" ] || return 0
  say "Building $names into .tools, once (usually 3 to 5 minutes on two cores)"
  # shellcheck disable=SC2086 # the ids are words
  attend "$names" "3 to 5 minutes" $ids || true
  hash -r
  has trunk "$trunk_version" || tool_missing trunk
  has wasm-bindgen "$bindgen_version" || tool_missing wasm-bindgen
  has_splitter || tool_missing wasm-split-cli
  say "  built in $((SECONDS - since)) s"
}

tool_missing() {
  tail -n 40 "$logs/$1.log" >&2
  stop "$1" "its build ended as shown above; it needs a connection to the package registry and a C compiler, and goes on where it stopped when run again"
}
