mod readme;
mod sample;
mod shipped;
