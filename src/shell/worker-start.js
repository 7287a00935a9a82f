// Starts the worker's program; the page opens this file as a worker. scripts/lib/split puts
// the built files' names into it.
import start from "./worker.js";

// What goes wrong reaches the page as the worker's error event.
start().catch(reportError);
