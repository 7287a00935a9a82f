pub mod csv;
mod file_name;
mod json;
mod pdf;
mod text;
