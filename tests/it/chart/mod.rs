mod progress;
mod shoe;
mod svg;
mod tolerance;
