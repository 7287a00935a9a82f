mod errors;
mod expressions;
mod hostile;
mod readme;
mod sample;
mod shipped;
mod worked;
