// Starts the page's program. A file of its own, as the page's policy allows no inline script;
// Trunk.toml hands it the built files' names.
const { js, wasm } = document.querySelector("script[data-wasm]").dataset;

try {
  const { default: start } = await import(js);
  await start({ module_or_path: wasm });
} catch (reason) {
  const notice =
    document.getElementById("starting") ?? document.body.appendChild(document.createElement("p"));
  notice.setAttribute("role", "alert");
  notice.textContent =
    "Evenshod could not start. Nothing kept on this device is lost. Reload the page; " +
    `if it says this again, update the browser. The reason given: ${reason}`;
  throw reason;
}
