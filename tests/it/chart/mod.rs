mod chances;
mod course;
mod shoe;
mod svg;
mod tolerance;
