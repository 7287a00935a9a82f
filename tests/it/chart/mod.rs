mod agreement;
mod chances;
mod course;
mod qr;
mod shoe;
mod svg;
mod tolerance;
