pub mod csv;
mod file_name;
mod json;
mod marking_schema;
mod pdf;
mod text;
pub mod xlsx;
