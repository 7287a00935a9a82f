mod progress;
mod svg;
mod tolerance;
