# shellcheck shell=bash disable=SC2154 # root, logs, wasm and begun are base.sh's
# Runs one of the programs that time something in Chromium.

# in_chromium BIN PROFILE: builds the program so, runs it in a page, and prints what that says, which stands in
# BIN-chromium.txt among the logs too.
# It runs on the page itself: WebAssembly is as fast there as in a worker.
in_chromium() {
  local bin=$1 profile=$2 made=$root/target/$1-time log=$logs/$1-time.log
  begin "$log" cargo build --locked --no-default-features --profile "$profile" --target "$wasm" --bin "$bin"
  attend "the program" "2 to 8 minutes" "$begun" || stop "program" "$(tail -n 20 "$log")"
  wasm-bindgen --target no-modules --no-typescript --out-dir "$made" "$root/target/$wasm/$profile/$bin.wasm"
  {
    echo '<!doctype html><meta charset="utf-8"><body><script>'
    cat "$made/$bin.js"
    echo "const text = atob('$(base64 <"$made/${bin}_bg.wasm" | tr -d '\n')');"
    echo 'wasm_bindgen.initSync({ module: Uint8Array.from(text, one => one.charCodeAt(0)) });'
    echo '</script>'
  } >"$made/page.html"
  "$CHROME" --headless --no-sandbox --disable-gpu --dump-dom "file://$made/page.html" 2>"$log" |
    sed 's/<[^>]*>//g' | grep ' ms' | tee "$logs/$bin-chromium.txt" || stop "browser" "$(tail -n 20 "$log")"
}
